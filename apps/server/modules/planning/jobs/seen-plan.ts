import { keptAssignments, measurePlan, type PlanAssignment, type PlanCost } from '#libs/plan';
import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { askedRun, runBefore, type AskedRun, type RunBefore } from '../data/run-row.js';
import type { Look } from '../data/look.js';
import type { PlanCauseResponse } from '../dto/plan-run.response.js';
import { loadShopPlan } from '../loading/load-shop-plan.js';
import type { PlanContributor, ShopPlan } from '../loading/shop-plan.js';
import { causesSince } from '../queries/causes.query.js';

/** Why a job runs. */
export interface RunWish {
  /** A longer look in the background, whether or not something happened. */
  readonly isBackground: boolean;
  /** A time that passed. */
  readonly look: Look | null;
  /** How often in a row runs came too late. */
  readonly late: number;
}

/** The shop as a run saw it, before it thought about it. */
export interface SeenPlan {
  readonly wish: RunWish;
  readonly shop: ShopPlan;
  readonly causes: readonly PlanCauseResponse[];
  readonly eventsUntil: string | null;
  readonly asked: AskedRun | null;
  readonly improve: boolean;
  readonly before: RunBefore;
  readonly startedAt: Date;
  /** The stored plan as far as it still counts, and what it costs. */
  readonly kept: readonly PlanAssignment[];
  readonly costBefore: PlanCost;
}

/** Null when there is nothing to look into: another run has seen to it. What happened is read before what is. */
export async function seePlan(
  tx: Tx,
  wish: RunWish,
  contributors: readonly PlanContributor[],
): Promise<Result<SeenPlan | null>> {
  const { causes, until } = await causesSince(tx);
  const asked = wish.isBackground ? null : await askedRun(tx);
  const all = [...causes, ...lookCauses(wish.look), ...askedCauses(asked)];
  if (all.length === 0 && !wish.isBackground) return ok(null);
  const shop = await loadShopPlan(tx, contributors);
  const kept = keptAssignments(shop.problem);
  return ok({
    ...{ wish, shop, asked, kept },
    causes: wish.isBackground ? [] : all,
    eventsUntil: wish.isBackground ? null : until,
    improve: wish.isBackground || asked?.improve === true,
    before: await runBefore(tx),
    startedAt: tx.now,
    costBefore: measurePlan(shop.problem, { assignments: kept }),
  });
}

const LOOK_WORDS: Readonly<Record<Look['kind'], string>> = {
  overrun: 'Work under way takes longer than was expected.',
  'late-start': 'Work has not begun at its planned time.',
  'proposal-old': 'The time has come at which work of the open proposal should begin.',
  'reservation-over': 'A reservation is over.',
  'part-overdue': 'A part is overdue, and nobody has told when it comes.',
};

function lookCauses(look: Look | null): PlanCauseResponse[] {
  if (look === null) return [];
  const { kind, at, workOrderId } = look;
  const subjects: Record<string, string> = workOrderId === null ? {} : { workOrderId };
  return [{ kind, words: LOOK_WORDS[kind], at: at.toISOString(), subjects }];
}

function askedCauses(asked: AskedRun | null): PlanCauseResponse[] {
  if (asked === null) return [];
  const words = `${asked.askedBy} asked for ${asked.improve ? 'a longer look at the plan' : 'another look at the plan'}.`;
  return [{ kind: 'asked', words, at: asked.askedAt.toISOString(), subjects: {} }];
}
