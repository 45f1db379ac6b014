import { Controller, Get, Query } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers } from '../../platform/http/answers.js';
import { Ctx, May } from '../../platform/http/route.js';
import { SearchQuery } from './dto/customer.request.js';
import { SearchResponse } from './dto/vehicle.response.js';
import { VinCheckQuery } from './dto/vin-check.request.js';
import { VinCheckResponse } from './dto/vin-check.response.js';
import { search } from './queries/search.query.js';
import { vinCheck } from './queries/vin-check.query.js';

@ApiTags('Customers and vehicles')
@Controller()
export class SearchController {
  constructor(private readonly uow: UnitOfWork) {}

  @Get('search')
  @May('customer.read')
  @Answers(SearchResponse)
  @ApiOperation({ summary: 'Customers and vehicles together, while somebody types' })
  search(@Ctx() ctx: RequestContext, @Query() query: SearchQuery): Promise<SearchResponse> {
    return this.uow.read(ctx, (tx) => search(tx, query.q));
  }

  @Get('vin-checks')
  @May('customer.read')
  @Answers(VinCheckResponse)
  @ApiOperation({ summary: 'What a VIN says about itself, before it is saved' })
  vinCheck(@Query() query: VinCheckQuery): VinCheckResponse {
    return vinCheck(query);
  }
}
