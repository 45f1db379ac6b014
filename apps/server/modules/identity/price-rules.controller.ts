import { Body, Controller, Get, Put } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers, NeedsVersion, WholeInVersion } from '../../platform/http/answers.js';
import { Ctx, IfMatch, May } from '../../platform/http/route.js';
import { PriceRulesRequest, PriceRulesResponse } from './dto/price-rules.js';
import { priceRulesOfShop } from './queries/price-rules.query.js';
import { setPriceRules } from './use-cases/set-price-rules.js';

@ApiTags('Shop')
@Controller('shop/price-rules')
export class PriceRulesController {
  constructor(private readonly uow: UnitOfWork) {}

  @Get()
  @May('estimate.write')
  @WholeInVersion()
  @Answers(PriceRulesResponse)
  @ApiOperation({
    summary: 'How prices follow from costs, and what supplies and the rounding of taxes go by',
  })
  read(@Ctx() ctx: RequestContext): Promise<PriceRulesResponse> {
    return this.uow.read(ctx, priceRulesOfShop);
  }

  @Put()
  @May('shop.configure')
  @NeedsVersion()
  @Answers(PriceRulesResponse)
  @ApiOperation({
    summary: 'Set the price rules; If-Match carries the version of the shop, the answer warns of inversions',
  })
  replace(
    @Ctx() ctx: RequestContext,
    @IfMatch() version: number | '*',
    @Body() body: PriceRulesRequest,
  ): Promise<PriceRulesResponse> {
    return this.uow.run(ctx, (tx) => setPriceRules(tx, version, body));
  }
}
