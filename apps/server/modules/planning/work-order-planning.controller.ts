import { Body, Controller, Get, Put } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers } from '../../platform/http/answers.js';
import { Ctx, Id, May } from '../../platform/http/route.js';
import { WorkOrderPlanningRequest } from './dto/plan-run.request.js';
import { WorkOrderPlanningResponse } from './dto/plan-run.response.js';
import { workOrderPlanning } from './queries/work-order-planning.query.js';
import { setWorkOrderPlanning } from './use-cases/set-work-order-planning.js';

@ApiTags('Planning')
@Controller('work-orders')
export class WorkOrderPlanningController {
  constructor(private readonly uow: UnitOfWork) {}

  @Get(':id/planning')
  @May('board.read')
  @Answers(WorkOrderPlanningResponse)
  @ApiOperation({ summary: 'Whether the plan may give the work order a place' })
  read(@Ctx() ctx: RequestContext, @Id() id: string): Promise<WorkOrderPlanningResponse> {
    return this.uow.read(ctx, (tx) => workOrderPlanning(tx, id));
  }

  @Put(':id/planning')
  @May('assignment.write')
  @Answers(WorkOrderPlanningResponse)
  @ApiOperation({
    summary: 'Take a work order out of the plan, or let it in again',
    description: 'The same again changes nothing, so it needs no version.',
  })
  set(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Body() body: WorkOrderPlanningRequest,
  ): Promise<WorkOrderPlanningResponse> {
    return this.uow.run(ctx, (tx) => setWorkOrderPlanning(tx, id, body));
  }
}
