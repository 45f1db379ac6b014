import { Body, Controller, Get, Put } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers, NeedsVersion, WholeInVersion } from '../../platform/http/answers.js';
import { Ctx, IfMatch, May } from '../../platform/http/route.js';
import { BenefitWeightsRequest, BenefitWeightsResponse } from './dto/benefit-weights.js';
import { benefitWeightsOfShop } from './queries/benefit-weights.query.js';
import { setBenefitWeights } from './use-cases/set-benefit-weights.js';

@ApiTags('Shop')
@Controller('shop/benefit-weights')
export class BenefitWeightsController {
  constructor(private readonly uow: UnitOfWork) {}

  @Get()
  @May('shop.read')
  @WholeInVersion()
  @Answers(BenefitWeightsResponse)
  @ApiOperation({ summary: 'How much the shop thinks work is worth, for choosing within a budget' })
  read(@Ctx() ctx: RequestContext): Promise<BenefitWeightsResponse> {
    return this.uow.read(ctx, benefitWeightsOfShop);
  }

  @Put()
  @May('shop.configure')
  @NeedsVersion()
  @Answers(BenefitWeightsResponse)
  @ApiOperation({
    summary: 'Weigh anew; If-Match carries the version of the shop. What was sent stays as it was shown',
  })
  replace(
    @Ctx() ctx: RequestContext,
    @IfMatch() version: number | '*',
    @Body() body: BenefitWeightsRequest,
  ): Promise<BenefitWeightsResponse> {
    return this.uow.run(ctx, (tx) => setBenefitWeights(tx, version, body));
  }
}
