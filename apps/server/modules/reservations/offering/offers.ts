import { Injectable } from '@nestjs/common';
import type { Fault } from '#libs/kernel';
import type { NoPlace } from '#libs/plan';
import type { RequestContext } from '../../../platform/context.js';
import { UnitOfWork } from '../../../platform/database/unit-of-work.js';
import { ProblemError } from '../../../platform/http/problem-error.js';
import { PlanContributors, PlanningThread } from '../../planning/index.js';
import { noPlaceResponse, offerResponse } from '../data/offers.mapping.js';
import type { AskOffersRequest } from '../dto/offer.request.js';
import type { OffersResponse } from '../dto/offer.response.js';
import { offersQuestion } from '../queries/offers-question.query.js';

/** When a car that may come could be done. Nothing is stored, and no transaction is open while the thread looks for places. */
@Injectable()
export class Offers {
  constructor(
    private readonly uow: UnitOfWork,
    private readonly thread: PlanningThread,
    private readonly contributors: PlanContributors,
  ) {}

  async for(ctx: RequestContext, request: AskOffersRequest): Promise<OffersResponse> {
    const question = await this.uow.read(ctx, (tx) => offersQuestion(tx, request, this.contributors.all));
    const { shop, current, newOrder, arrivals } = question;
    const found = await this.thread.ask({
      ...{ what: 'offers', problem: shop.problem, current, newOrder },
      wish: { arrivals, mayMove: request.mayMove ?? false },
    });
    const told = { timeZone: question.settings.timeZone, askedAt: question.now.toISOString() };
    if (found.ok)
      return { ...told, offers: found.value.map((offer) => offerResponse(question, offer)), noPlace: null };
    return { ...told, offers: [], noPlace: noPlaceResponse(question, whyOf(found.fault)) };
  }
}

/** A problem that the planner refuses is a mistake of ours; that there is no place is an answer. */
function whyOf(fault: Fault): NoPlace {
  if (fault.code !== 'no-place') throw new ProblemError(fault);
  return (fault.facts?.['why'] as NoPlace | undefined) ?? { reason: 'no-room', operation: null };
}
