import { fail, ok, type Result } from '#libs/kernel';
import { checkPlan, measurePlan, type PlanAssignment } from '#libs/plan';
import { freeReservedPlaces } from '../../scheduling/index.js';
import type { Tx } from '../../../platform/database/tx.js';
import { enqueueImprove, enqueuePlan } from '../data/enqueue-plan.js';
import { composed, isEmpty, rulesBrokenBy, type FoundPlan } from '../data/found-plan.js';
import { lockFloor } from '../data/lock-floor.js';
import { lockPlan } from '../data/lock-plan.js';
import { enqueueLook, nextLook } from '../data/next-look.js';
import { harmlessHolds, writesFor, type PlaceWrite } from '../data/place-writes.js';
import { promisesBy, turnedSince } from '../data/promises.js';
import { decideRun, lastRejected, standingProposal } from '../data/proposal.js';
import { askedRun, storeRun } from '../data/run-row.js';
import { writePlaces } from '../data/write-places.js';
import type { PlanOutcome } from '../dto/plan-run.request.js';
import { loadShopPlan } from '../loading/load-shop-plan.js';
import type { PlanContributor, ShopPlan } from '../loading/shop-plan.js';
import type { SeenPlan } from './seen-plan.js';
import { isSameFound, isWorse, wayOf, type ThoughtPlan } from './thought-plan.js';

/** What a run is stored with. */
export interface StoreTools {
  readonly contributors: readonly PlanContributor[];
  /** How much faster than the wall's the shop's clock runs. */
  readonly rate: number;
}

/** What came of it in the end. */
interface End {
  readonly outcome: PlanOutcome;
  readonly detail: string | null;
  /** The floor as it was looked at last, and the plan that is stored now. */
  readonly shop: ShopPlan;
  readonly stored: readonly PlanAssignment[];
  /** There is a row of the run already. */
  readonly isBegun?: boolean;
  readonly isSuperseding?: boolean;
}

/** `plan-outdated` where it no longer fits; the caller tries again. */
export async function storePlanRun(
  tx: Tx,
  seen: SeenPlan,
  made: ThoughtPlan,
  tools: StoreTools,
): Promise<Result<void>> {
  await lockPlan(tx);
  const id = seen.asked?.id ?? tx.newId();
  const way = wayOf(seen, made);
  const end =
    way === 'apply'
      ? await apply(tx, id, seen, made, tools)
      : ok(await leaveOrPropose(tx, id, seen, made, way, tools));
  if (!end.ok) return end;
  await finish(tx, id, seen, made, end.value, tools);
  return ok(undefined);
}

const NOTHING = (shop: ShopPlan): FoundPlan => ({
  ...{ origin: shop.horizon.origin.toISOString(), places: [], takenOut: [] },
});

async function apply(
  tx: Tx,
  id: string,
  seen: SeenPlan,
  { found }: ThoughtPlan,
  tools: StoreTools,
): Promise<Result<End>> {
  const expected = writesFor(seen.shop, composed(seen.shop, found));
  const isSuperseding = await supersede(tx, seen, !isEmpty(found));
  const unchanged: End = {
    ...{ outcome: 'unchanged', detail: null, isSuperseding },
    ...{ shop: seen.shop, stored: composed(seen.shop, found) },
  };
  if (isEmpty(found) && expected.length === 0) return ok(unchanged);
  const shop = await takeFloor(tx, lockedBy(seen.shop, found, expected), tools);
  const broken = rulesBrokenBy(shop, found);
  const stored = composed(shop, found);
  const writes = writesFor(shop, stored);
  const isLocked = isWithin(writes, lockedBy(seen.shop, found, expected));
  if (broken.length > 0 || !isLocked)
    return fail('plan-outdated', broken[0]?.detail ?? 'Other work is to be moved by now.');
  const givenUp = found.takenOut.flatMap((operation) => shop.assignmentOf.get(operation) ?? []);
  await storeFirst(tx, id, seen);
  await writePlaces(tx, id, writes, givenUp);
  const outcome = isEmpty(found) ? 'unchanged' : 'applied';
  return ok({ ...unchanged, shop, stored, outcome, isBegun: true });
}

/** Takes back an open proposal that is worth nothing any more, or any. */
async function supersede(tx: Tx, seen: SeenPlan, any: boolean): Promise<boolean> {
  const standing = await standingProposal(tx);
  if (standing === undefined || (!any && isWorthwhile(seen, standing.proposal))) return false;
  await decideRun(tx, standing.id, 'superseded');
  return true;
}

/** A place names its run, so there is a row before; what came of it is written with the rest at the end. */
async function storeFirst(tx: Tx, id: string, { asked, improve, startedAt }: SeenPlan): Promise<void> {
  if (asked !== null) return;
  await tx.em.query(
    `insert into plan_runs (shop_id, id, causes, improve, asked_at, changes, promises, late)
     values ($1, $2, '[]', $3, $4, '[]', '{}', '[]')`,
    [tx.shopId, id, improve, startedAt],
  );
}

/** The floor as it is now, with everything locked that is to be written. Reserved places that are over are free first. */
async function takeFloor(tx: Tx, workOrderIds: readonly string[], tools: StoreTools): Promise<ShopPlan> {
  await lockFloor(tx, workOrderIds);
  await freeReservedPlaces(tx, 'any');
  return loadShopPlan(tx, tools.contributors);
}

/** Work orders that the writes are about, what is under way and what is done, which may have turned meanwhile. */
function lockedBy(shop: ShopPlan, found: FoundPlan, writes: readonly PlaceWrite[]): string[] {
  const running = [...shop.workOrders.values()].flatMap(({ id, isOnTheClock }) => (isOnTheClock ? [id] : []));
  return [
    ...new Set([
      ...writes.flatMap(({ place }) => place.workOrderId ?? []),
      ...found.places.map(({ operation }) => operation).filter((id) => shop.workOrders.has(id)),
      ...found.takenOut.filter((id) => shop.workOrders.has(id)),
      ...running,
      ...shop.finished.map(({ workOrderId }) => workOrderId),
    ]),
  ];
}

function isWithin(writes: readonly PlaceWrite[], workOrderIds: readonly string[]): boolean {
  const locked = new Set(workOrderIds);
  return writes.every(({ place }) => place.workOrderId === null || locked.has(place.workOrderId));
}

async function leaveOrPropose(
  tx: Tx,
  id: string,
  seen: SeenPlan,
  made: ThoughtPlan,
  way: 'leave' | 'propose',
  tools: StoreTools,
): Promise<End> {
  await holdBays(tx, id, seen, tools);
  const { shop, kept } = seen;
  const standing = await standingProposal(tx);
  const stands = standing !== undefined && isWorthwhile(seen, standing.proposal);
  const unchanged: End = { outcome: 'unchanged', detail: null, shop, stored: kept };
  if (way === 'propose' && made.isElsewhere && isGain(seen, made)) {
    if (stands && !isWorse(shop, costOf(shop, standing.proposal), made.cost))
      return { ...unchanged, detail: 'The open proposal still stands.' };
    const rejected = await lastRejected(tx);
    if (rejected !== undefined && isSameFound(shop, rejected, made.found))
      return { ...unchanged, detail: 'The same was proposed and rejected.' };
    if (standing !== undefined) await decideRun(tx, standing.id, 'superseded');
    return { ...unchanged, outcome: 'proposed', isSuperseding: standing !== undefined };
  }
  return { ...unchanged, isSuperseding: await supersede(tx, seen, false) };
}

/** A longer look must save more than its changes cost; otherwise what no longer holds is reason enough. */
function isGain({ improve, shop, kept, costBefore }: SeenPlan, { cost }: ThoughtPlan): boolean {
  if (!improve || isWorse(shop, costBefore, cost)) return true;
  const placed = new Set(kept.map(({ operation }) => operation));
  const unplaced = shop.problem.repairOrders.flatMap(({ operations }) =>
    operations.flatMap(({ id }) => (placed.has(id) ? [] : [{ operation: id, why: '' }])),
  );
  return checkPlan(shop.problem, { assignments: kept, unplaced }).length > 0;
}

const costOf = (shop: ShopPlan, found: FoundPlan) =>
  measurePlan(shop.problem, { assignments: composed(shop, found) });

/** An open proposal that still fits, and is not worse than what is stored. */
function isWorthwhile({ shop, costBefore }: SeenPlan, proposal: FoundPlan): boolean {
  if (rulesBrokenBy(shop, proposal).length > 0) return false;
  const isStoredBroken = checkPlan(shop.problem, { assignments: composed(shop, NOTHING(shop)) }).some(
    ({ rule }) => rule !== 'operation-missing',
  );
  return isStoredBroken || isWorse(shop, costBefore, costOf(shop, proposal));
}

/** A car that stands apart keeps its bay, whoever plans: the database is told, where it is in nobody's way. */
async function holdBays(tx: Tx, id: string, { shop }: SeenPlan, tools: StoreTools): Promise<void> {
  const holds = (at: ShopPlan): PlaceWrite[] => harmlessHolds(at, writesFor(at, composed(at, NOTHING(at))));
  const expected = holds(shop);
  if (expected.length === 0) return;
  const locked = expected.flatMap(({ place }) => place.workOrderId ?? []);
  const writes = holds(await takeFloor(tx, locked, tools));
  if (isWithin(writes, locked)) await writePlaces(tx, id, writes, []);
}

async function finish(
  tx: Tx,
  id: string,
  seen: SeenPlan,
  made: ThoughtPlan,
  end: End,
  { rate }: StoreTools,
): Promise<void> {
  const { outcome, shop, stored } = end;
  const isProposed = outcome === 'proposed';
  const told = isProposed ? promisesBy(seen.shop, made.assignments) : promisesBy(shop, stored);
  const promises = turnedSince(seen.before.late, told);
  const isFound = isProposed || outcome === 'applied';
  const hasTurned = promises.broken.length + promises.kept.length > 0;
  if (!seen.wish.isBackground || isFound)
    await storeRun(tx, {
      ...{ id, hasRow: seen.asked !== null || end.isBegun === true, improve: seen.improve },
      ...{ causes: seen.causes, eventsUntil: seen.eventsUntil, startedAt: seen.startedAt },
      ...{ outcome, detail: end.detail, costBefore: seen.costBefore, promises, late: told.late },
      cost: isFound ? made.cost : seen.costBefore,
      ...{ latenessBound: made.latenessBound, solveMs: made.solveMs },
      changes: isFound ? made.changes : [],
      proposal: isProposed ? made.found : null,
    });
  if (isFound || hasTurned || seen.asked !== null || end.isSuperseding === true)
    tx.announce('plan', { planRunId: id });
  if (outcome === 'applied') await tx.audit('plan.apply', 'plan-run', id, { changes: made.changes.length });
  const look = await nextLook(tx, shop, stored, isProposed ? made.assignments : []);
  if (look !== null) enqueueLook(tx, look, rate);
  if (outcome === 'applied' && made.isElsewhere) enqueueImprove(tx);
  if (seen.asked !== null && (await askedRun(tx)) !== null) enqueuePlan(tx);
}
