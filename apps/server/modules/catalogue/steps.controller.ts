import { Body, Controller, Get, Patch, Post, Query } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers, Creates, NeedsVersion, PageOf, type Page } from '../../platform/http/answers.js';
import { Ctx, Id, IfMatch, May } from '../../platform/http/route.js';
import { AddStepRequest, CatalogueQuery, ChangeStepRequest } from './dto/step.request.js';
import { StepResponse } from './dto/step.response.js';
import { stepsPage } from './queries/steps.query.js';
import { addStep } from './use-cases/add-step.js';
import { changeStep } from './use-cases/change-step.js';

@ApiTags('Catalogue')
@Controller('steps')
export class StepsController {
  constructor(private readonly uow: UnitOfWork) {}

  @Get()
  @May('catalogue.read')
  @Answers(PageOf(StepResponse))
  @ApiOperation({ summary: 'The steps of the shop, by code' })
  list(@Ctx() ctx: RequestContext, @Query() query: CatalogueQuery): Promise<Page<StepResponse>> {
    return this.uow.read(ctx, (tx) => stepsPage(tx, query));
  }

  @Post()
  @May('catalogue.write')
  @Creates(StepResponse)
  @ApiOperation({ summary: 'Add a step with its hours' })
  add(@Ctx() ctx: RequestContext, @Body() body: AddStepRequest): Promise<StepResponse> {
    return this.uow.run(ctx, (tx) => addStep(tx, body));
  }

  @Patch(':id')
  @May('catalogue.write')
  @NeedsVersion()
  @Answers(StepResponse)
  @ApiOperation({ summary: 'Rename a step or change its hours, for lines written from now on' })
  change(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @IfMatch() version: number | '*',
    @Body() body: ChangeStepRequest,
  ): Promise<StepResponse> {
    return this.uow.run(ctx, (tx) => changeStep(tx, id, version, body));
  }
}
