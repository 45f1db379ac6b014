import { Controller, Get, Query } from '@nestjs/common';
import { ApiOperation, ApiTags } from '@nestjs/swagger';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { Answers } from '../../platform/http/answers.js';
import { Ctx, Id, May } from '../../platform/http/route.js';
import { ReviewQuery } from './dto/review.request.js';
import {
  RepairOrderReviewResponse,
  ReviewLinesResponse,
  TechniciansReviewResponse,
} from './dto/review.response.js';
import { RangesReviewResponse } from './dto/range-review.response.js';
import { reviewLines } from './queries/review-lines.query.js';
import { reviewRanges } from './queries/review-ranges.query.js';
import { reviewRepairOrder } from './queries/review-repair-order.query.js';
import { reviewTechnicians } from './queries/review-technicians.query.js';

@ApiTags('Review')
@Controller('review')
export class ReviewController {
  constructor(private readonly uow: UnitOfWork) {}

  @Get('repair-orders/:id')
  @May('review.read')
  @Answers(RepairOrderReviewResponse)
  @ApiOperation({
    summary:
      'A repair order after the fact: sold against clocked, what may be invoiced, and how its range did',
  })
  repairOrder(@Ctx() ctx: RequestContext, @Id() id: string): Promise<RepairOrderReviewResponse> {
    return this.uow.read(ctx, (tx) => reviewRepairOrder(tx, id));
  }

  @Get('technicians')
  @May('review.read')
  @Answers(TechniciansReviewResponse)
  @ApiOperation({
    summary: 'Each technician’s part of what was finished in a period, and how the time was spent',
  })
  technicians(@Ctx() ctx: RequestContext, @Query() query: ReviewQuery): Promise<TechniciansReviewResponse> {
    return this.uow.read(ctx, (tx) => reviewTechnicians(tx, query));
  }

  @Get('lines')
  @May('review.read')
  @Answers(ReviewLinesResponse)
  @ApiOperation({ summary: 'The lines finished in a period: sold against clocked, with totals' })
  lines(@Ctx() ctx: RequestContext, @Query() query: ReviewQuery): Promise<ReviewLinesResponse> {
    return this.uow.read(ctx, (tx) => reviewLines(tx, query));
  }

  @Get('ranges')
  @May('review.read')
  @Answers(RangesReviewResponse)
  @ApiOperation({
    summary: 'Vehicles picked up in a period: how often the total stayed within what was said before the job',
  })
  ranges(@Ctx() ctx: RequestContext, @Query() query: ReviewQuery): Promise<RangesReviewResponse> {
    return this.uow.read(ctx, (tx) => reviewRanges(tx, query));
  }
}
