import { Body, Controller, Post } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { Answers } from '../../platform/http/answers.js';
import { Ctx, May } from '../../platform/http/route.js';
import { AskOffersRequest } from './dto/offer.request.js';
import { OffersResponse } from './dto/offer.response.js';
import { Offers } from './offering/offers.js';

@ApiTags('Reservations')
@Controller('plan/offers')
export class OffersController {
  constructor(private readonly offers: Offers) {}

  @Post()
  @May('reservation.write')
  @Answers(OffersResponse)
  @ApiOperation({
    summary: 'When could this be done? Several offers to choose from; nothing is stored or changed',
    description:
      'For each time at which the vehicle could be brought the earliest place between what is planned; with `mayMove` also what would be possible if others moved. Where there is no place the answer says why, and what could be done about it.',
  })
  ask(@Ctx() ctx: RequestContext, @Body() body: AskOffersRequest): Promise<OffersResponse> {
    return this.offers.for(ctx, body);
  }
}
