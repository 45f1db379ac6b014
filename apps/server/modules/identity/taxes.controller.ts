import { Body, Controller, Get, Patch, Post } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers, Creates, NeedsVersion } from '../../platform/http/answers.js';
import { Ctx, Id, IfMatch, May } from '../../platform/http/route.js';
import { AddTaxRequest, ChangeTaxRequest } from './dto/tax.request.js';
import { TaxResponse, TaxesResponse } from './dto/tax.response.js';
import { allTaxes } from './queries/taxes.query.js';
import { addTax } from './use-cases/add-tax.js';
import { changeTax } from './use-cases/change-tax.js';

@ApiTags('Shop')
@Controller('taxes')
export class TaxesController {
  constructor(private readonly uow: UnitOfWork) {}

  @Get()
  @May('shop.read')
  @Answers(TaxesResponse)
  @ApiOperation({ summary: 'The taxes of the shop and what each falls on' })
  list(@Ctx() ctx: RequestContext): Promise<TaxesResponse> {
    return this.uow.read(ctx, allTaxes);
  }

  @Post()
  @May('shop.configure')
  @Creates(TaxResponse)
  @ApiOperation({ summary: 'Add a tax' })
  add(@Ctx() ctx: RequestContext, @Body() body: AddTaxRequest): Promise<TaxResponse> {
    return this.uow.run(ctx, (tx) => addTax(tx, body));
  }

  @Patch(':id')
  @May('shop.configure')
  @NeedsVersion()
  @Answers(TaxResponse)
  @ApiOperation({ summary: 'Change a tax' })
  change(
    @Ctx() ctx: RequestContext,
    @Id() id: string,
    @IfMatch() version: number | '*',
    @Body() body: ChangeTaxRequest,
  ): Promise<TaxResponse> {
    return this.uow.run(ctx, (tx) => changeTax(tx, id, version, body));
  }
}
