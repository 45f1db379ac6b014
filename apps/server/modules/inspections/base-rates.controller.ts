import { Body, Controller, Get, Put } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers, NeedsVersion, WholeInVersion } from '../../platform/http/answers.js';
import { Ctx, IfMatch, May } from '../../platform/http/route.js';
import { BaseRatesRequest, BaseRatesResponse } from './dto/base-rates.js';
import { baseRates } from './queries/base-rates.query.js';
import { setBaseRates } from './use-cases/set-base-rates.js';

@ApiTags('Shop')
@Controller('shop/base-rates')
export class BaseRatesController {
  constructor(private readonly uow: UnitOfWork) {}

  @Get()
  @May('shop.read')
  @WholeInVersion()
  @Answers(BaseRatesResponse)
  @ApiOperation({ summary: 'How often a checkpoint that could not be seen needs work, and what that costs' })
  read(@Ctx() ctx: RequestContext): Promise<BaseRatesResponse> {
    return this.uow.read(ctx, baseRates);
  }

  @Put()
  @May('shop.configure')
  @NeedsVersion()
  @Answers(BaseRatesResponse)
  @ApiOperation({
    summary:
      'Set them anew; If-Match carries the version of the shop. What was sent keeps those it was sent with',
  })
  replace(
    @Ctx() ctx: RequestContext,
    @IfMatch() version: number | '*',
    @Body() body: BaseRatesRequest,
  ): Promise<BaseRatesResponse> {
    return this.uow.run(ctx, (tx) => setBaseRates(tx, version, body));
  }
}
