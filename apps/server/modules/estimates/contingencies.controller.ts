import { Body, Controller, Delete, Patch, Post } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers, Creates, Empties, NeedsVersion } from '../../platform/http/answers.js';
import { Ctx, Id, IfMatch, May } from '../../platform/http/route.js';
import { AddContingencyRequest, ChangeContingencyRequest } from './dto/contingency.request.js';
import { ContingencyResponse } from './dto/contingency.response.js';
import { addContingency } from './use-cases/add-contingency.js';
import { changeContingency, removeContingency } from './use-cases/change-contingency.js';

/** What may happen on a line, while it is being offered. What becomes of it: the contingencies module. */
@ApiTags('Contingencies')
@Controller()
export class DraftContingenciesController {
  constructor(private readonly uow: UnitOfWork) {}

  @Post('lines/:id/contingencies')
  @May('estimate.write')
  @Creates(ContingencyResponse)
  @ApiOperation({
    summary: 'Add to a line of a draft an extra that is charged only if a named thing happens',
  })
  add(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @Body() body: AddContingencyRequest,
  ): Promise<ContingencyResponse> {
    return this.uow.run(ctx, (tx) => addContingency(tx, id, body));
  }

  @Patch('contingencies/:id')
  @May('estimate.write')
  @NeedsVersion()
  @Answers(ContingencyResponse)
  @ApiOperation({ summary: 'Change a contingency of a draft; If-Match carries the version of its revision' })
  change(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @IfMatch() version: number | '*',
    @Body() body: ChangeContingencyRequest,
  ): Promise<ContingencyResponse> {
    return this.uow.run(ctx, (tx) => changeContingency(tx, id, version, body));
  }

  @Delete('contingencies/:id')
  @May('estimate.write')
  @NeedsVersion()
  @Empties()
  @ApiOperation({
    summary: 'Take a contingency off a line of a draft; If-Match carries the version of its revision',
  })
  remove(@Ctx() ctx: RequestContext, @Id() id: string, @IfMatch() version: number | '*'): Promise<void> {
    return this.uow.run(ctx, (tx) => removeContingency(tx, id, version));
  }
}
