import { Body, Controller, Get, Post, Put } from '@nestjs/common';
import { ApiHeader, ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Acts, Answers, Creates } from '../../platform/http/answers.js';
import { Ctx, Id, IfMatchWhenThere, May } from '../../platform/http/route.js';
import { PutObservationRequest, StartInspectionRequest } from './dto/inspection.request.js';
import { InspectionResponse, ObservationResponse } from './dto/inspection.response.js';
import { inspectionById } from './queries/inspection.query.js';
import { completeInspection } from './use-cases/complete-inspection.js';
import { putObservation } from './use-cases/put-observation.js';
import { startInspection } from './use-cases/start-inspection.js';

@ApiTags('Inspections')
@Controller()
export class InspectionsController {
  constructor(private readonly uow: UnitOfWork) {}

  @Post('repair-orders/:id/inspections')
  @May('inspection.record')
  @Creates(InspectionResponse)
  @ApiOperation({ summary: 'Begin a walk over the vehicle' })
  start(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Body() body: StartInspectionRequest,
  ): Promise<InspectionResponse> {
    return this.uow.run(ctx, (tx) => startInspection(tx, id, body));
  }

  @Get('inspections/:id')
  @May('repair-order.read')
  @Answers(InspectionResponse)
  @ApiOperation({ summary: 'An inspection: stations, checkpoints, what was seen, progress' })
  one(@Ctx() ctx: RequestContext, @Id() id: string): Promise<InspectionResponse> {
    return this.uow.read(ctx, (tx) => inspectionById(tx, id));
  }

  @Put('inspections/:id/observations/:checkpointId')
  @May('inspection.record')
  @Answers(ObservationResponse)
  @ApiHeader({
    name: 'If-Match',
    required: false,
    description: 'Needed to replace an observation: its ETag. Not sent the first time.',
  })
  @ApiOperation({
    summary: 'Record what was seen at a checkpoint, sound parts too',
    description:
      'The same body again gives the same answer and changes nothing. `watch` and `repair` make or update the finding; turning back withdraws it.',
  })
  observe(
    @Ctx() ctx: RequestContext,
    @Id() inspectionId: string,
    @Id('checkpointId') checkpointId: string,
    @IfMatchWhenThere() version: number | '*' | undefined,
    @Body() body: PutObservationRequest,
  ): Promise<ObservationResponse> {
    return this.uow.run(ctx, (tx) => putObservation(tx, { inspectionId, checkpointId, version }, body));
  }

  @Post('inspections/:id/complete')
  @May('inspection.record')
  @Acts(InspectionResponse)
  @ApiOperation({ summary: 'End the walk; it stays as it is from then on' })
  complete(@Ctx() ctx: RequestContext, @Id() id: string): Promise<InspectionResponse> {
    return this.uow.run(ctx, (tx) => completeInspection(tx, id));
  }
}
