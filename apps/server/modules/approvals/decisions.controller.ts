import { Body, Controller, Get, Post } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Acts, Answers } from '../../platform/http/answers.js';
import { Ctx, Id, May } from '../../platform/http/route.js';
import { DecisionLogResponse, DecisionsResponse } from './dto/approval-link.response.js';
import { StaffDecideRequest } from './dto/decision.request.js';
import { decisionLog } from './queries/decision-log.query.js';
import { decideForOwner } from './use-cases/decide-for-owner.js';

@ApiTags('Decisions')
@Controller()
export class DecisionsController {
  constructor(private readonly uow: UnitOfWork) {}

  @Post('revisions/:id/decisions')
  @May('decision.record-for-owner')
  @Acts(DecisionsResponse)
  @ApiOperation({ summary: 'Record what the owner said by phone or in person' })
  decide(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Body() body: StaffDecideRequest,
  ): Promise<DecisionsResponse> {
    return this.uow.run(ctx, (tx) => decideForOwner(tx, id, body));
  }

  @Get('repair-orders/:id/decisions')
  @May('repair-order.read')
  @Answers(DecisionLogResponse)
  @ApiOperation({ summary: 'Everything decided on a repair order, in order, with what proves it' })
  log(@Ctx() ctx: RequestContext, @Id() id: string): Promise<DecisionLogResponse> {
    return this.uow.read(ctx, (tx) => decisionLog(tx, id));
  }
}
