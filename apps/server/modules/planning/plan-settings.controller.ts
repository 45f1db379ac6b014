import { Body, Controller, Get, Put } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers, NeedsVersion, WholeInVersion } from '../../platform/http/answers.js';
import { Ctx, IfMatch, May } from '../../platform/http/route.js';
import { PlanSettingsRequest, PlanSettingsResponse } from './dto/plan-settings.js';
import { planSettings } from './queries/plan-settings.query.js';
import { setPlanSettings } from './use-cases/set-plan-settings.js';

@ApiTags('Planning')
@Controller('plan/settings')
export class PlanSettingsController {
  constructor(private readonly uow: UnitOfWork) {}

  @Get()
  @May('board.read')
  @WholeInVersion()
  @Answers(PlanSettingsResponse)
  @ApiOperation({ summary: 'How the shop wants its plan made' })
  read(@Ctx() ctx: RequestContext): Promise<PlanSettingsResponse> {
    return this.uow.read(ctx, planSettings);
  }

  @Put()
  @May('plan.configure')
  @NeedsVersion()
  @Answers(PlanSettingsResponse)
  @ApiOperation({
    summary: 'Say anew how the plan is made',
    description: 'Holds from the next run on. An open proposal that was made by other settings stays open.',
  })
  replace(
    @Ctx() ctx: RequestContext,
    @IfMatch() version: number | '*',
    @Body() body: PlanSettingsRequest,
  ): Promise<PlanSettingsResponse> {
    return this.uow.run(ctx, (tx) => setPlanSettings(tx, version, body));
  }
}
