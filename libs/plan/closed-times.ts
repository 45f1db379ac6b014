import { FAR } from './far.js';
import { finishOf } from './finish-of.js';
import type { PlanModel } from './plan-model.js';
import { rowsOf } from './rows.js';

/** Owners of a closed time: an operation, or (below -1) a hold; -1 for nobody. */
export const ownerHold = (hold: number): number => -2 - hold;

type Closed = [from: number, to: number, owner: number];

/**
 * When each resource is closed: out of service, or kept free for pinned work. A pin keeps its people and its bay free
 * when there is only one way to meet it and nothing stands against it; otherwise it takes its chance in the search.
 */
export function closedTimes(
  model: Omit<PlanModel, 'closed' | 'hasClosed' | 'reserved'>,
): Pick<PlanModel, 'closed' | 'hasClosed' | 'reserved'> {
  const { problem, bay0, tool0 } = model;
  const lists: Closed[][] = Array.from({ length: model.resources }, () => []);
  const close = (resource: number, from: number, to: number, owner: number): void =>
    void lists[resource]?.push([from, to, owner]);
  problem.technicians.forEach(({ engaged }, technician) =>
    (engaged ?? []).forEach(([from, to]) => close(technician, from, to, -1)),
  );
  problem.bays.forEach(({ outOfService }, bay) =>
    (outOfService ?? []).forEach(([from, to]) => close(bay0 + bay, from, to, -1)),
  );
  problem.tools?.forEach(({ outOfService }, tool) =>
    (outOfService ?? []).forEach(([from, to]) => close(tool0 + tool, from, to, -1)),
  );
  const busyUntil = new Int32Array(model.resources);
  for (const { technicians: people, bay, end } of model.started)
    for (const resource of bay < 0 ? people : [...people, bay0 + bay])
      busyUntil[resource] = Math.max(busyUntil[resource] ?? 0, end);
  // Where a car stands apart nobody knows yet until when: what is pinned there takes its chance when it is gone.
  for (const bay of heldBays(model)) busyUntil[bay0 + bay] = FAR;
  const isFree = (resource: number, from: number, to: number): boolean =>
    (busyUntil[resource] ?? 0) <= from &&
    !(lists[resource] ?? []).some(([opens, closes]) => opens < to && from < closes);
  const reserved = new Uint8Array(model.operations);
  for (let o = 0; o < model.operations; o++) {
    const start = model.pinStart[o] ?? -1;
    const [crew, end] = [model.crewFirst[o] ?? 0, model.crewFirst[o + 1] ?? 0];
    const hold = model.hold[o] ?? -1;
    const only = model.holdBays.first[hold] ?? 0;
    const isSure =
      end - crew === 1 &&
      (hold < 0 || (model.holdSize[hold] === 1 && model.holdBays.first[hold + 1] === only + 1));
    if (start < 0 || model.isHopeless[o] === 1 || model.isStarted[o] === 1 || !isSure) continue;
    const over = finishOf(model, crew, start);
    const people = [model.crewLead[crew] ?? 0, model.crewHelper[crew] ?? -1].filter((one) => one >= 0);
    const places = hold < 0 ? [] : [bay0 + (model.holdBays.item[only] ?? 0)];
    if (![...people, ...places].every((resource) => isFree(resource, start, over))) continue;
    reserved[o] = 1;
    for (const resource of people) close(resource, start, over, o);
    for (const resource of places) close(resource, start, over, ownerHold(hold));
  }
  const hasClosed = lists.some((list) => list.length > 0);
  for (const list of lists) list.sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  return { closed: rowsOf(lists.map((list) => list.flat())), hasClosed, reserved };
}

/** Bays in which a car stands whose teardown was begun and is not over. */
function heldBays({ started, hold, holdSize }: Pick<PlanModel, 'started' | 'hold' | 'holdSize'>): number[] {
  const begun = new Map<number, number>();
  for (const { operation } of started) {
    const own = hold[operation] ?? -1;
    begun.set(own, (begun.get(own) ?? 0) + 1);
  }
  return started.flatMap(({ operation, bay }) => {
    const own = hold[operation] ?? -1;
    return bay >= 0 && own >= 0 && (holdSize[own] ?? 0) > (begun.get(own) ?? 0) ? [bay] : [];
  });
}
