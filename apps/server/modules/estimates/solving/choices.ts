import { Injectable } from '@nestjs/common';
import type { RequestContext } from '../../../platform/context.js';
import { UnitOfWork } from '../../../platform/database/unit-of-work.js';
import { ProblemError } from '../../../platform/http/problem-error.js';
import { choicesResponse } from '../data/choices.mapping.js';
import type { ChoicesRequest, ChoicesResponse, SumRequest } from '../dto/choices.js';
import { offerToChoose, setsQuestion, type OfferToChoose } from '../queries/offer-to-choose.query.js';
import { SetsSolver } from './sets-solver.js';

/** What to do with this much money. No transaction is open while the sets are being found. */
@Injectable()
export class Choices {
  constructor(
    private readonly uow: UnitOfWork,
    private readonly solver: SetsSolver,
  ) {}

  async of(ctx: RequestContext, repairOrderId: string, request: ChoicesRequest): Promise<ChoicesResponse> {
    const chosen = await this.uow.read(ctx, (tx) =>
      offerToChoose(tx, repairOrderId, request.revisionId?.toLowerCase()),
    );
    return this.among(chosen, request);
  }

  /** Of an offer that was loaded already. */
  async among(
    chosen: OfferToChoose,
    { budgetCents = null, notToBeDriven = false }: SumRequest,
  ): Promise<ChoicesResponse> {
    const found = await this.solver.solve(
      setsQuestion(chosen.offer, chosen.lines, { budgetCents, notToBeDriven }),
    );
    if (!found.ok) throw new ProblemError(found.fault);
    return choicesResponse(chosen, found.value);
  }
}
