import { Body, Controller, Get, Patch, Post } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers, Creates, NeedsVersion } from '../../platform/http/answers.js';
import { Ctx, Id, IfMatch, May } from '../../platform/http/route.js';
import { ChangeFindingRequest, RecordFindingRequest } from './dto/finding.request.js';
import { FindingResponse, FindingsResponse, VehicleFindingsResponse } from './dto/finding.response.js';
import { findingsOfRepairOrder } from './queries/findings.query.js';
import { openFindingsOfVehicle } from './queries/vehicle-findings.query.js';
import { changeFinding } from './use-cases/change-finding.js';
import { recordFinding } from './use-cases/record-finding.js';

@ApiTags('Findings')
@Controller()
export class FindingsController {
  constructor(private readonly uow: UnitOfWork) {}

  @Get('repair-orders/:id/findings')
  @May('repair-order.read')
  @Answers(FindingsResponse)
  @ApiOperation({ summary: 'What was found on this stay, the lines that answer it and the last decision' })
  list(@Ctx() ctx: RequestContext, @Id() id: string): Promise<FindingsResponse> {
    return this.uow.read(ctx, (tx) => findingsOfRepairOrder(tx, id));
  }

  @Post('repair-orders/:id/findings')
  @May('finding.record')
  @Creates(FindingResponse)
  @ApiOperation({ summary: 'Record something that was found under way' })
  record(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Body() body: RecordFindingRequest,
  ): Promise<FindingResponse> {
    return this.uow.run(ctx, (tx) => recordFinding(tx, id, body));
  }

  @Patch('findings/:id')
  @May('finding.record')
  @NeedsVersion()
  @Answers(FindingResponse)
  @ApiOperation({ summary: 'Word a finding better, or withdraw one that was found under way' })
  change(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @IfMatch() version: number | '*',
    @Body() body: ChangeFindingRequest,
  ): Promise<FindingResponse> {
    return this.uow.run(ctx, (tx) => changeFinding(tx, id, version, body));
  }

  @Get('vehicles/:id/findings')
  @May('repair-order.read')
  @Answers(VehicleFindingsResponse)
  @ApiOperation({ summary: 'What is still open on a vehicle: watched, deferred, declined, never decided' })
  ofVehicle(@Ctx() ctx: RequestContext, @Id() id: string): Promise<VehicleFindingsResponse> {
    return this.uow.read(ctx, (tx) => openFindingsOfVehicle(tx, id));
  }
}
