import { Injectable } from '@nestjs/common';
import { explainPlan } from '#libs/plan';
import { ok } from '#libs/kernel';
import type { RequestContext } from '../../platform/context.js';
import { UnitOfWork } from '../../platform/database/unit-of-work.js';
import type { PlanResponse } from './dto/plan.response.js';
import { loadShopPlan } from './loading/load-shop-plan.js';
import { PlanContributors } from './loading/plan-contributors.js';
import { PlanningThread } from './planning-thread/planning-thread.js';
import { planPage, storedPlan } from './queries/plan.query.js';
import { runNow } from './queries/run-now.query.js';

/** Above so many operations a plan is explained in the thread: 10 ms at 220, half a second at ten times that. */
const MOST_HERE = 300;

/** The plan as it is stored, with its reasons. No transaction is open while they are being found. */
@Injectable()
export class PlanPage {
  constructor(
    private readonly uow: UnitOfWork,
    private readonly contributors: PlanContributors,
    private readonly thread: PlanningThread,
  ) {}

  async of(ctx: RequestContext): Promise<PlanResponse> {
    const { shop, run } = await this.uow.read(ctx, async (tx) =>
      ok({ shop: await loadShopPlan(tx, this.contributors.all), run: await runNow(tx) }),
    );
    const { problem } = shop;
    const plan = storedPlan(shop);
    const isLarge = plan.assignments.length > MOST_HERE;
    const why = isLarge
      ? await this.thread.ask({ what: 'explain', problem, plan })
      : explainPlan(problem, plan);
    return planPage(shop, why, run);
  }
}
