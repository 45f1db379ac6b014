import { Body, Controller, Delete, Get, Post, Put, Query } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import {
  Acts,
  Answers,
  Creates,
  Empties,
  NeedsVersion,
  PageOf,
  type Page,
} from '../../platform/http/answers.js';
import { Ctx, Id, IfMatch, May } from '../../platform/http/route.js';
import { ClaimResponse } from './dto/claim.response.js';
import {
  CheckWorkOrderRequest,
  GiveBackClaimRequest,
  SetEarlierWorkOrdersRequest,
  WorkOrdersQuery,
} from './dto/work-order.request.js';
import { WorkOrderResponse } from './dto/work-order.response.js';
import { oneWorkOrder, workOrders } from './queries/work-orders.query.js';
import { checkWorkOrder } from './use-cases/check-work-order.js';
import { claimWorkOrder } from './use-cases/claim-work-order.js';
import { finishWorkOrder } from './use-cases/finish-work-order.js';
import { giveBackClaim } from './use-cases/give-back-claim.js';
import { setEarlierWorkOrders } from './use-cases/set-earlier-work-orders.js';

@ApiTags('Work orders')
@Controller('work-orders')
export class WorkOrdersController {
  constructor(private readonly uow: UnitOfWork) {}

  @Get()
  @May('board.read')
  @Answers(PageOf(WorkOrderResponse))
  @ApiOperation({
    summary: 'Work orders, the newest first',
    description: 'State and holds are computed as of now.',
  })
  list(@Ctx() ctx: RequestContext, @Query() query: WorkOrdersQuery): Promise<Page<WorkOrderResponse>> {
    return this.uow.read(ctx, (tx) => workOrders(tx, query));
  }

  @Get(':id')
  @May('board.read')
  @Answers(WorkOrderResponse)
  @ApiOperation({ summary: 'One work order with its state, its holds and its cautions' })
  one(@Ctx() ctx: RequestContext, @Id() id: string): Promise<WorkOrderResponse> {
    return this.uow.read(ctx, (tx) => oneWorkOrder(tx, id));
  }

  @Post(':id/claims')
  @May('work-order.claim')
  @Creates(ClaimResponse)
  @ApiOperation({
    summary: 'Take a work order that can start',
    description: 'Exactly one person holds it. Whoever comes second is told who has it and since when.',
  })
  claim(@Ctx() ctx: RequestContext, @Id() id: string): Promise<ClaimResponse> {
    return this.uow.run(ctx, (tx) => claimWorkOrder(tx, id));
  }

  @Delete(':id/claims/current')
  @May('work-order.claim')
  @Empties()
  @ApiOperation({ summary: 'Give a work order back; a manager may for somebody else, with a reason' })
  giveBack(@Ctx() ctx: RequestContext, @Id() id: string, @Body() body: GiveBackClaimRequest): Promise<void> {
    return this.uow.run(ctx, (tx) => giveBackClaim(tx, id, body.reason));
  }

  @Post(':id/finish')
  @May('work-order.finish')
  @Acts(WorkOrderResponse)
  @ApiOperation({ summary: 'The work is done; ends the holder’s open clock entry' })
  finish(@Ctx() ctx: RequestContext, @Id() id: string): Promise<WorkOrderResponse> {
    return this.uow.run(ctx, (tx) => finishWorkOrder(tx, id));
  }

  @Post(':id/check')
  @May('work-order.check')
  @Acts(WorkOrderResponse)
  @ApiOperation({
    summary: 'Check finished work, or send it back',
    description: 'By another person than the one who did it; one’s own work only with a note that says why.',
  })
  check(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Body() body: CheckWorkOrderRequest,
  ): Promise<WorkOrderResponse> {
    return this.uow.run(ctx, (tx) => checkWorkOrder(tx, id, body));
  }

  @Put(':id/earlier')
  @May('assignment.write')
  @NeedsVersion()
  @Answers(WorkOrderResponse)
  @ApiOperation({ summary: 'Say which work orders must be finished first' })
  setEarlier(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @IfMatch() version: number | '*',
    @Body() body: SetEarlierWorkOrdersRequest,
  ): Promise<WorkOrderResponse> {
    return this.uow.run(ctx, (tx) => setEarlierWorkOrders(tx, id, version, body.earlierIds));
  }
}
