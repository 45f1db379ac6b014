import { Controller, Get } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { Answers } from '../../platform/http/answers.js';
import { Ctx, May } from '../../platform/http/route.js';
import { PlanResponse } from './dto/plan.response.js';
import { PlanPage } from './plan-page.js';

@ApiTags('Planning')
@Controller('plan')
export class PlanController {
  constructor(private readonly page: PlanPage) {}

  @Get()
  @May('board.read')
  @Answers(PlanResponse)
  @ApiOperation({
    summary: 'The plan: who does what, where and when, and why not earlier',
    description:
      'For each place what it waits for and what would free it; for each promise that does not hold the chain of causes; and the open work that has no place, with the reason.',
  })
  read(@Ctx() ctx: RequestContext): Promise<PlanResponse> {
    return this.page.of(ctx);
  }
}
