import { ok } from '#libs/kernel';
import type { Result } from '#libs/kernel';
import { plan } from '#libs/plan';
import type { PlanAnswer, PlanProblem, PlanProblemFault } from '#libs/plan';
import { knownWork } from './known-work.js';
import { OrderState } from './order-state.js';
import type { Worked } from './order-state.js';
import { ShopYear } from './shop-year.js';
import type { WhatIfFloor } from './what-if-floor.js';
import { workThrough } from './work-through.js';
import type { Year, YearOrder } from './year-description.js';

/** How much thought goes into each plan of a replay; the same effort on the same year always gives the same answer. */
export interface ReplayEffort {
  /** How often a planner asks whether its time is over before it is; 10 and more. */
  readonly patience: number;
  /** Cars that come are planned so many minutes after the plan before at the earliest; null leaves them to the next opening. */
  readonly gapMinutes: number | null;
  /** Repair orders that are planned at once: what was begun, then what was promised first. The others wait. */
  readonly mostOrders: number;
  /** Told of every plan. */
  readonly watch?: (problem: PlanProblem, made: PlanAnswer) => void;
}

export const USUAL_REPLAY: ReplayEffort = { patience: 12, gapMinutes: 60, mostOrders: 24 };

/** How a repair order fared. */
export interface Outcome {
  readonly order: YearOrder;
  /** When it was ready; null when it is still open at the end. */
  readonly ready: number | null;
  /** When it was found that nobody here can do it; null when they can. */
  readonly turnedAway: number | null;
}

export interface Replay {
  readonly shop: ShopYear;
  readonly outcomes: readonly Outcome[];
  /** Everything that was begun, in the order of starts. */
  readonly worked: readonly Worked[];
  readonly plans: number;
}

/**
 * The work of a year done on this floor, day by day: at each opening (and arrival) what is known is planned, then carried
 * out with the hours that it really takes. The shop is empty at first, and what is open at the end stays open.
 */
export function replay(
  floor: WhatIfFloor,
  year: Year,
  effort: ReplayEffort = USUAL_REPLAY,
): Result<Replay, PlanProblemFault> {
  const shop = new ShopYear(floor, year);
  const coming = [...year.orders].sort((a, b) => a.known - b.known || a.arrives - b.arrives);
  const points = planningPoints(shop, year, effort);
  const outcomes: Outcome[] = [];
  const worked: Worked[] = [];
  const close = (state: OrderState, turnedAway: number | null): void => {
    const ready = state.ready;
    const isReady = turnedAway === null && ready !== null && ready <= shop.end;
    outcomes.push({ order: state.order, ready: isReady ? ready : null, turnedAway });
    worked.push(...state.begun.values());
  };
  let [open, next, plans]: [OrderState[], number, number] = [[], 0, 0];
  for (const [k, now] of points.entries()) {
    for (let order = coming[next]; order !== undefined && order.known <= now; order = coming[++next])
      open.push(new OrderState(order));
    for (const state of open) if (state.isOver(now)) close(state, null);
    open = open.filter((state) => !state.isOver(now));
    const until = points[k + 1] ?? shop.end;
    const chosen = choose(open, until, effort.mostOrders);
    if (chosen.every(({ ready }) => ready !== null)) continue;
    const problem = knownWork(shop, chosen, now);
    const made = planned(problem, effort.patience);
    if (!made.ok) return made;
    plans++;
    effort.watch?.(problem, made.value);
    const away = impossible(chosen, made.value);
    for (const state of away) close(state, now);
    open = open.filter((state) => !away.has(state));
    workThrough(
      shop,
      chosen.filter((state) => !away.has(state)),
      made.value.assignments,
      { now, until },
    );
  }
  for (const state of open) close(state, null);
  for (const order of coming.slice(next)) close(new OrderState(order), null);
  worked.sort((a, b) => a.start - b.start || (a.operation < b.operation ? -1 : 1));
  return ok({ shop, outcomes, worked, plans });
}

/** Openings, and arrivals while the shop is open, the latter with a gap. */
function planningPoints(shop: ShopYear, year: Year, { gapMinutes }: ReplayEffort): number[] {
  const openings = shop.opening.between(0, shop.end).map(([from]) => from);
  if (gapMinutes === null) return openings;
  const arrivals = year.orders.map(({ arrives }) => arrives);
  const isOpening = new Set(openings);
  const points: number[] = [];
  let last = -Infinity;
  for (const at of [...openings, ...arrivals].sort((a, b) => a - b)) {
    const point = isOpening.has(at) ? at : Math.max(at, last + gapMinutes);
    const isOpen = isOpening.has(at) || shop.opening.firstFrom(point) === point;
    if (!isOpen || point <= last || point >= shop.end) continue;
    points.push(point);
    last = point;
  }
  return points;
}

/** What was begun, then what is here before the next planning, then what was promised first. */
function choose(open: readonly OrderState[], until: number, most: number): OrderState[] {
  if (open.length <= most) return [...open];
  const rank = ({ begun, order }: OrderState): number => (begun.size > 0 ? 0 : order.arrives < until ? 1 : 2);
  return [...open]
    .sort(
      (a, b) => rank(a) - rank(b) || a.order.promised - b.order.promised || a.order.arrives - b.order.arrives,
    )
    .filter((state, k) => k < most || state.begun.size > 0);
}

/** Plans for as long as this patience lasts: the clock goes on by one whenever it is read, so no real time is in it. */
function planned(problem: PlanProblem, patience: number): Result<PlanAnswer, PlanProblemFault> {
  let ticks = 0;
  return plan(problem, { timeLimitMs: patience, now: () => ticks++, seed: 1 });
}

/** Repair orders with work for which nobody has the certificate, no bay is right or a tool is missing. */
function impossible(states: readonly OrderState[], { unplaced }: PlanAnswer): ReadonlySet<OrderState> {
  const left = new Set(unplaced.map(({ operation }) => operation));
  return new Set(
    left.size === 0 ? [] : states.filter(({ order }) => order.operations.some(({ id }) => left.has(id))),
  );
}
