import { Body, Controller, Delete, Get, Patch, Post } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers, Creates, Empties, NeedsVersion } from '../../platform/http/answers.js';
import { Ctx, Id, IfMatch, May } from '../../platform/http/route.js';
import { AddLineRequest, ChangeLineRequest } from './dto/line.request.js';
import { LineResponse } from './dto/line.response.js';
import { EstimateResponse } from './dto/revision.response.js';
import { estimateOf } from './queries/estimate.query.js';
import { addLine } from './use-cases/add-line.js';
import { changeLine } from './use-cases/change-line.js';
import { removeLine } from './use-cases/remove-line.js';

@ApiTags('Estimate')
@Controller()
export class LinesController {
  constructor(private readonly uow: UnitOfWork) {}

  @Get('repair-orders/:id/estimate')
  @May('repair-order.read')
  @Answers(EstimateResponse)
  @ApiOperation({
    summary: 'The revisions of a repair order: lines, prices and how they came about, decisions',
  })
  estimate(@Ctx() ctx: RequestContext, @Id() id: string): Promise<EstimateResponse> {
    return this.uow.read(ctx, (tx) => estimateOf(tx, id));
  }

  @Post('repair-orders/:id/lines')
  @May('estimate.write')
  @Creates(LineResponse)
  @ApiOperation({ summary: 'Add a line to the draft; the first one begins a draft' })
  add(@Ctx() ctx: RequestContext, @Id() id: string, @Body() body: AddLineRequest): Promise<LineResponse> {
    return this.uow.run(ctx, (tx) => addLine(tx, id, body));
  }

  @Patch('lines/:id')
  @May('estimate.write')
  @NeedsVersion()
  @Answers(LineResponse)
  @ApiOperation({ summary: 'Change a line of a draft; If-Match carries the version of its revision' })
  change(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @IfMatch() version: number | '*',
    @Body() body: ChangeLineRequest,
  ): Promise<LineResponse> {
    return this.uow.run(ctx, (tx) => changeLine(tx, id, version, body));
  }

  @Delete('lines/:id')
  @May('estimate.write')
  @NeedsVersion()
  @Empties()
  @ApiOperation({ summary: 'Take a line out of a draft; If-Match carries the version of its revision' })
  remove(@Ctx() ctx: RequestContext, @Id() id: string, @IfMatch() version: number | '*'): Promise<void> {
    return this.uow.run(ctx, (tx) => removeLine(tx, id, version));
  }
}
