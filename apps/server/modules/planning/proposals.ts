import { Injectable } from '@nestjs/common';
import { Clock } from '../../platform/clock.js';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import { problem, ProblemError } from '../../platform/http/problem-error.js';
import { NO_LONGER_FITS } from './data/no-longer-fits.js';
import type { PlanRunResponse } from './dto/plan-run.response.js';
import { PlanContributors } from './loading/plan-contributors.js';
import { acceptProposal } from './use-cases/accept-proposal.js';
import { askForPlan } from './use-cases/ask-for-plan.js';

/** Answers to proposals of the plan. */
@Injectable()
export class Proposals {
  constructor(
    private readonly uow: UnitOfWork,
    private readonly contributors: PlanContributors,
    private readonly clock: Clock,
  ) {}

  /** Where it no longer fits nothing is changed, and the answer names the run that was asked for in its place. */
  async accept(ctx: RequestContext, id: string): Promise<PlanRunResponse> {
    const tools = { contributors: this.contributors.all, rate: this.clock.rate };
    try {
      return await this.uow.run(ctx, (tx) => acceptProposal(tx, id, tools));
    } catch (error) {
      if (!(error instanceof ProblemError) || !NO_LONGER_FITS.has(error.fault.code)) throw error;
      const again = await this.uow.run({ shopId: ctx.shopId, actor: ctx.actor }, (tx) => askForPlan(tx, {}));
      throw problem('plan-outdated', `${error.fault.detail} Another look at the plan is under way.`, {
        facts: { planRunId: again.id },
      });
    }
  }
}
