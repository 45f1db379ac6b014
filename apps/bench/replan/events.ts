import type { Period, PlanAssignment, PlanOperation, PlanProblem, PlanRepairOrder } from '#libs/plan';
import { atWorked } from './two-weeks.js';

export const EVENTS = ['absent', 'overrun', 'part late', 'urgent car', 'lift out'] as const;
export type EventKind = (typeof EVENTS)[number];

const DAY = 1440;
const TWO_HOURS = 120;

/** The shop at `now` with nothing new: what should have begun has, as it was planned. */
export function later(
  problem: PlanProblem,
  assignments: readonly PlanAssignment[],
  now: number,
): PlanProblem {
  const at = new Map(assignments.map((one) => [one.operation, one]));
  return {
    ...problem,
    now,
    previous: assignments,
    repairOrders: problem.repairOrders.map((order) => ({
      ...order,
      operations: order.operations.map((one): PlanOperation => {
        const own = at.get(one.id);
        if (own === undefined || own.start >= now) return one;
        const { start, end, bay, technicians, tools } = own;
        return { ...one, started: { start, end, bay, technicians, tools } };
      }),
    })),
  };
}

/** The shop after one event at its `now`, and what was planned. */
export function after(event: EventKind, shop: PlanProblem): PlanProblem {
  if (event === 'absent') return absent(shop);
  if (event === 'overrun') return overrun(shop);
  if (event === 'part late') return partLate(shop);
  if (event === 'urgent car') return urgentCar(shop);
  return liftOut(shop);
}

const planned = ({ previous }: PlanProblem): readonly PlanAssignment[] => previous ?? [];

const midnight = (time: number): number => (Math.floor(time / DAY) + 1) * DAY;

const without = (works: readonly Period[], from: number, to: number): Period[] =>
  works.flatMap(([opens, closes]): Period[] => {
    const pieces: Period[] = [
      [opens, Math.min(closes, from)],
      [Math.max(opens, to), closes],
    ];
    return pieces.filter(([start, end]) => start < end);
  });

/** Who has most to do goes home for the day, after what they are at. */
function absent(shop: PlanProblem): PlanProblem {
  const { now } = shop;
  const until = midnight(now);
  const workOf = (id: string): number =>
    planned(shop)
      .filter(({ technicians, start }) => technicians.includes(id) && start >= now && start < until)
      .reduce((sum, { start, end }) => sum + Math.min(end, until) - start, 0);
  const who = shop.technicians.reduce((most, one) => (workOf(one.id) > workOf(most.id) ? one : most));
  const running = planned(shop)
    .filter(({ technicians, start }) => technicians.includes(who.id) && start < now)
    .map(({ end }) => end);
  const from = Math.max(now, ...running);
  return {
    ...shop,
    technicians: shop.technicians.map((one) =>
      one === who ? { ...one, works: without(one.works, from, until) } : one,
    ),
  };
}

const withOperation = (
  shop: PlanProblem,
  id: string,
  change: (operation: PlanOperation) => PlanOperation,
): PlanProblem => ({
  ...shop,
  repairOrders: shop.repairOrders.map((order) =>
    order.operations.some((one) => one.id === id)
      ? { ...order, operations: order.operations.map((one) => (one.id === id ? change(one) : one)) }
      : order,
  ),
});

/** The longest work that is under way takes two working hours more. */
function overrun(shop: PlanProblem): PlanProblem {
  const running = planned(shop).filter(({ start, end }) => start < shop.now && end > shop.now);
  const longest = running.reduce<PlanAssignment | null>(
    (most, one) => (most === null || one.end - one.start > most.end - most.start ? one : most),
    null,
  );
  if (longest === null) return shop;
  const works = shop.technicians.find(({ id }) => id === longest.technicians[0])?.works ?? [];
  let [left, end] = [TWO_HOURS, longest.end];
  for (const [opens, closes] of works) {
    if (closes <= end || left === 0) continue;
    const from = Math.max(opens, end);
    const took = Math.min(left, closes - from);
    left -= took;
    end = from + took;
  }
  return withOperation(shop, longest.operation, (one) =>
    one.started == null ? one : { ...one, started: { ...one.started, end } },
  );
}

/** The next operation that begins in an hour or later has its parts a day after that. */
function partLate(shop: PlanProblem): PlanProblem {
  const next = planned(shop)
    .filter(({ start }) => start >= shop.now + 60)
    .reduce<PlanAssignment | null>(
      (first, one) => (first === null || one.start < first.start ? one : first),
      null,
    );
  if (next === null) return shop;
  return withOperation(shop, next.operation, (one) => ({ ...one, earliest: next.start + DAY }));
}

/** A car of weight 4 comes now and is wanted by the same time tomorrow. */
function urgentCar(shop: PlanProblem): PlanProblem {
  const steps = [
    { minutes: 30, skill: 'brakes', isOnLift: true },
    { minutes: 120, skill: 'engine', isOnLift: true },
    { minutes: 60, skill: 'steering', isOnLift: false },
  ];
  const order: PlanRepairOrder = {
    ...{ id: 'urgent', weight: 4, arrives: shop.now, promised: shop.now + DAY },
    vehicle: { weightKg: 1600, heightMm: 1500 },
    operations: steps.map(({ minutes, skill, isOnLift }, k) => ({
      ...{ id: `urgent, step ${k + 1}`, minutes, skills: [skill] },
      after: k === 0 ? [] : [`urgent, step ${k}`],
      bay: isOnLift ? { lift: true } : null,
    })),
  };
  return { ...shop, repairOrders: [...shop.repairOrders, order] };
}

/** The lift with most cars to come is out until the end of tomorrow, once the car on it is off. */
function liftOut(shop: PlanProblem): PlanProblem {
  const { now } = shop;
  const until = midnight(midnight(now));
  const cars = (id: string): number =>
    planned(shop).filter(({ bay, start }) => bay === id && start >= now && start < until).length;
  const which = shop.bays.reduce((most, one) => (cars(one.id) > cars(most.id) ? one : most));
  const running = planned(shop).filter(({ bay, start }) => bay === which.id && start < now);
  const from = Math.max(now, ...running.map(({ end }) => end));
  return {
    ...shop,
    bays: shop.bays.map((one) => (one === which ? { ...one, outOfService: [[from, until] as const] } : one)),
  };
}

/** Wednesday of the first week, an hour and a half into the morning. */
export const EVENT_TIME = atWorked(2 * 480 + 90);
