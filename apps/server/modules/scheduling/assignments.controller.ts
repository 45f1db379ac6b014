import { Body, Controller, Delete, Patch, Post } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers, Creates, Empties, NeedsVersion } from '../../platform/http/answers.js';
import { Ctx, Id, IfMatch, May } from '../../platform/http/route.js';
import { AssignWorkOrderRequest, MoveAssignmentRequest } from './dto/assignment.request.js';
import { AssignmentResponse } from './dto/assignment.response.js';
import { assignWorkOrder } from './use-cases/assign-work-order.js';
import { cancelAssignment } from './use-cases/cancel-assignment.js';
import { moveAssignment } from './use-cases/move-assignment.js';

@ApiTags('Scheduling')
@Controller('assignments')
export class AssignmentsController {
  constructor(private readonly uow: UnitOfWork) {}

  @Post()
  @May('assignment.write')
  @Creates(AssignmentResponse)
  @ApiOperation({
    summary: 'Give a work order a bay, a technician and a time',
    description:
      'Refused where the lift may not carry the vehicle, a certificate runs out first, or bay, technician or tool is taken; the answer names who has it. Time outside the shift is only warned of.',
  })
  assign(@Ctx() ctx: RequestContext, @Body() body: AssignWorkOrderRequest): Promise<AssignmentResponse> {
    return this.uow.run(ctx, (tx) => assignWorkOrder(tx, body));
  }

  @Patch(':id')
  @May('assignment.write')
  @NeedsVersion()
  @Answers(AssignmentResponse)
  @ApiOperation({ summary: 'Move an assignment; its tools move with it' })
  move(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @IfMatch() version: number | '*',
    @Body() body: MoveAssignmentRequest,
  ): Promise<AssignmentResponse> {
    return this.uow.run(ctx, (tx) => moveAssignment(tx, id, version, body));
  }

  @Delete(':id')
  @May('assignment.write')
  @NeedsVersion()
  @Empties()
  @ApiOperation({ summary: 'Take a work order out of the plan' })
  cancel(@Ctx() ctx: RequestContext, @Id() id: string, @IfMatch() version: number | '*'): Promise<void> {
    return this.uow.run(ctx, (tx) => cancelAssignment(tx, id, version));
  }
}
