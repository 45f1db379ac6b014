import { Body, Controller, Get, Patch, Post } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers, Creates, NeedsVersion } from '../../platform/http/answers.js';
import { Ctx, Id, IfMatch, May } from '../../platform/http/route.js';
import { AddLabourRateRequest, ChangeLabourRateRequest } from './dto/labour-rate.request.js';
import { LabourRateResponse, LabourRatesResponse } from './dto/labour-rate.response.js';
import { allLabourRates } from './queries/labour-rates.query.js';
import { addLabourRate } from './use-cases/add-labour-rate.js';
import { changeLabourRate } from './use-cases/change-labour-rate.js';

@ApiTags('Shop')
@Controller('labour-rates')
export class LabourRatesController {
  constructor(private readonly uow: UnitOfWork) {}

  @Get()
  @May('shop.read')
  @Answers(LabourRatesResponse)
  @ApiOperation({ summary: 'Labour rates, the default first' })
  list(@Ctx() ctx: RequestContext): Promise<LabourRatesResponse> {
    return this.uow.read(ctx, allLabourRates);
  }

  @Post()
  @May('shop.configure')
  @Creates(LabourRateResponse)
  @ApiOperation({ summary: 'Add a labour rate' })
  add(@Ctx() ctx: RequestContext, @Body() body: AddLabourRateRequest): Promise<LabourRateResponse> {
    return this.uow.run(ctx, (tx) => addLabourRate(tx, body));
  }

  @Patch(':id')
  @May('shop.configure')
  @NeedsVersion()
  @Answers(LabourRateResponse)
  @ApiOperation({ summary: 'Change a labour rate' })
  change(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @IfMatch() version: number | '*',
    @Body() body: ChangeLabourRateRequest,
  ): Promise<LabourRateResponse> {
    return this.uow.run(ctx, (tx) => changeLabourRate(tx, id, version, body));
  }
}
