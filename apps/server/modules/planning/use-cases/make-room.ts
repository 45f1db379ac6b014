import { fail, ok, type Result } from '#libs/kernel';
import {
  keptAssignments,
  measurePlan,
  type PlanAnswer,
  type PlanChange,
  type PlanRepairOrder,
} from '#libs/plan';
import type { Tx } from '../../../platform/database/tx.js';
import { freeReservedPlaces } from '../../scheduling/index.js';
import { composed, foundIn, rulesBrokenBy } from '../data/found-plan.js';
import { lockFloor } from '../data/lock-floor.js';
import { lockPlan } from '../data/lock-plan.js';
import { writesFor } from '../data/place-writes.js';
import { promisesBy, turnedSince } from '../data/promises.js';
import { runChanges } from '../data/run-changes.js';
import { runBefore, storeRun } from '../data/run-row.js';
import { writePlaces } from '../data/write-places.js';
import { loadShopPlan } from '../loading/load-shop-plan.js';
import type { PlanContributor, ShopPlan } from '../loading/shop-plan.js';

/** A plan in which there is room for a visitor, as the thread found it. */
export interface RoomFound {
  /** The shop with the visitor, as it was asked about. */
  readonly shop: ShopPlan;
  readonly answer: PlanAnswer & { readonly changes: readonly PlanChange[] };
}

export interface Visitor {
  readonly order: PlanRepairOrder;
  /** What happened, for the record of the run. */
  readonly words: string;
  readonly subjects: Readonly<Record<string, string>>;
}

/** The shop with the visitor in it, in place of what is contributed for it already. */
export function withVisitor(shop: ShopPlan, order: PlanRepairOrder): ShopPlan {
  const others = shop.problem.repairOrders.filter(({ id }) => id !== order.id);
  return { ...shop, problem: { ...shop.problem, repairOrders: [...others, order] } };
}

/**
 * Moves others as it was found, on the floor as it is now, and gives the visitor its places. It is a run of the plan like
 * any other: what moved, by how much and why stays on record. `plan-outdated` where it no longer fits.
 */
export async function makeRoom(
  tx: Tx,
  { shop: seen, answer }: RoomFound,
  visitor: Visitor,
  contributors: readonly PlanContributor[],
): Promise<Result<void>> {
  const startedAt = tx.now;
  await lockPlan(tx);
  const found = foundIn(seen, answer.assignments);
  const touched = [...found.places.map(({ operation }) => operation), ...found.takenOut];
  await lockFloor(
    tx,
    touched.filter((id) => seen.workOrders.has(id)),
  );
  await freeReservedPlaces(tx, 'any');
  const shop = withVisitor(await loadShopPlan(tx, contributors), visitor.order);
  const [broken] = rulesBrokenBy(shop, found);
  const own = new Set(visitor.order.operations.map(({ id }) => id));
  const stored = composed(shop, found);
  const isOurs = (operation: string): boolean => own.has(operation) || touched.includes(operation);
  // What else is under way is the next run's to follow.
  const writes = writesFor(shop, stored).filter(({ place }) => isOurs(place.operation));
  if (broken !== undefined) return fail('plan-outdated', broken.detail);
  const id = tx.newId();
  const before = await runBefore(tx);
  const promises = promisesBy(shop, stored);
  await storeRun(tx, {
    ...{ id, hasRow: false, improve: false, eventsUntil: null, startedAt, outcome: 'applied', detail: null },
    causes: [
      { kind: 'reservation', words: visitor.words, at: tx.now.toISOString(), subjects: visitor.subjects },
    ],
    costBefore: measurePlan(shop.problem, { assignments: keptAssignments(shop.problem) }),
    ...{ cost: answer.cost, latenessBound: answer.latenessBound, solveMs: Math.round(answer.bestMs) },
    changes: runChanges(shop, found, answer.changes),
    ...{ promises: turnedSince(before.late, promises), late: promises.late, proposal: null },
  });
  const givenUp = found.takenOut.flatMap((operation) => shop.assignmentOf.get(operation) ?? []);
  await writePlaces(tx, id, writes, givenUp);
  tx.announce('plan', { planRunId: id });
  await tx.audit('plan.apply', 'plan-run', id, { changes: writes.length });
  return ok(undefined);
}
