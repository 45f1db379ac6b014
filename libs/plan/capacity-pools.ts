import { FAR } from './far.js';
import type { PlanModel } from './plan-model.js';

/** So many pools of people at most: more would rarely say more. */
const MOST_POOLS = 24;

/** Repair orders that need the same people or bays, and how much of them: the least time that each needs of the pool. */
export interface Pool {
  /** Repair orders with a promise, those first of which a minute of work weighs least. */
  readonly orders: Int32Array;
  readonly work: Float64Array;
  /** Before this none of it can be begun. */
  readonly since: Float64Array;
  readonly technicians: readonly number[];
  readonly bays: number;
}

function poolOf(
  model: PlanModel,
  isIn: (operation: number) => boolean,
  technicians: readonly number[],
  bays: number,
): Pool {
  const work = new Float64Array(model.orders);
  const since = new Float64Array(model.orders).fill(FAR);
  for (let o = 0; o < model.operations; o++) {
    if (model.isStarted[o] === 1 || model.isHopeless[o] === 1 || !isIn(o)) continue;
    const order = model.order[o] ?? 0;
    work[order] = (work[order] ?? 0) + (model.shortest[o] ?? 0);
    since[order] = Math.min(since[order] ?? FAR, model.release[o] ?? 0);
  }
  const rate = (order: number): number =>
    (model.problem.repairOrders[order]?.weight ?? 1) / (work[order] ?? 1);
  const orders = Int32Array.from(work.keys())
    .filter((order) => (work[order] ?? 0) > 0 && (model.due[order] ?? FAR) < FAR)
    .sort((a, b) => rate(a) - rate(b) || a - b);
  return { orders, work, since, technicians, bays };
}

/** For every set of people that some work needs, and every set of bays, what needs nobody and nothing else. */
export function poolsOf(model: PlanModel): Pool[] {
  const leads = Array.from({ length: model.operations }, (_, o) => [
    ...new Set(model.crewLead.subarray(model.crewFirst[o], model.crewFirst[o + 1])),
  ]);
  const people = distinct([...leads, Array.from({ length: model.technicians }, (_, k) => k)]);
  const places = Array.from({ length: model.holds }, (_, hold) =>
    Array.from(model.holdBays.item.subarray(model.holdBays.first[hold], model.holdBays.first[hold + 1])),
  );
  const ofPeople = people.slice(0, MOST_POOLS).map((set) => {
    const own = new Set(set);
    const isIn = (o: number): boolean =>
      (leads[o] ?? []).length > 0 && (leads[o] ?? []).every((one) => own.has(one));
    return poolOf(model, isIn, set, 0);
  });
  const ofBays = distinct(places)
    .slice(0, MOST_POOLS)
    .map((set) => {
      const own = new Set(set);
      const isIn = (o: number): boolean => {
        const hold = model.hold[o] ?? -1;
        return hold >= 0 && (places[hold] ?? []).every((bay) => own.has(bay));
      };
      return poolOf(model, isIn, [], set.length);
    });
  return [...ofPeople, ...ofBays].filter(({ orders }) => orders.length > 0);
}

function distinct(sets: readonly (readonly number[])[]): number[][] {
  const known = new Map<string, number[]>();
  for (const set of sets) {
    const sorted = [...set].sort((a, b) => a - b);
    if (sorted.length > 0) known.set(sorted.join(), sorted);
  }
  return [...known.values()].sort((a, b) => b.length - a.length);
}
