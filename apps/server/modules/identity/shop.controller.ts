import { Body, Controller, Get, Patch } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers, NeedsVersion, WholeInVersion } from '../../platform/http/answers.js';
import { Ctx, IfMatch, May } from '../../platform/http/route.js';
import { ChangeShopRequest } from './dto/shop.request.js';
import { ShopResponse } from './dto/shop.response.js';
import { shop } from './queries/shop-settings.query.js';
import { changeShop } from './use-cases/change-shop.js';

@ApiTags('Shop')
@Controller('shop')
export class ShopController {
  constructor(private readonly uow: UnitOfWork) {}

  @Get()
  @May('shop.read')
  @WholeInVersion()
  @Answers(ShopResponse)
  @ApiOperation({ summary: 'The shop and its settings' })
  read(@Ctx() ctx: RequestContext): Promise<ShopResponse> {
    return this.uow.read(ctx, shop);
  }

  @Patch()
  @May('shop.configure')
  @NeedsVersion()
  @Answers(ShopResponse)
  @ApiOperation({ summary: 'Change the settings of the shop' })
  change(
    @Ctx() ctx: RequestContext,
    @IfMatch() version: number | '*',
    @Body() body: ChangeShopRequest,
  ): Promise<ShopResponse> {
    return this.uow.run(ctx, (tx) => changeShop(tx, version, body));
  }
}
