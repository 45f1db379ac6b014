import { finishOf } from './finish-of.js';
import { PER_MINUTE } from './plan-model.js';
import type { Timetable } from './timetable.js';

/** Who wants a resource: an operation, or (of a bay) a car, which does not stand in its own way. */
export type Wanting = { readonly operation: number } | { readonly order: number };

/** About what it costs that all who have a resource in [from, to) give way to what wants it; not told exactly past `most`. */
export function pushedIn(
  table: Timetable,
  resource: number,
  [from, to]: readonly [number, number],
  who: Wanting,
  most = Infinity,
): number {
  const list = table.busy[resource];
  if (list === undefined) return 0;
  let cost = 0;
  for (let k = list.firstEndingAfter(from); k < list.count; k++) {
    const begins = list.from[k] ?? 0;
    if (begins >= to) break;
    const owner = list.owner[k] ?? -1;
    if ((list.to[k] ?? 0) <= from || owner < 0) continue;
    if ('operation' in who ? owner === who.operation : table.holdOrder[owner] === who.order) continue;
    cost += 1 + shiftCost(table, owner, 'order' in who, to - begins);
    if (cost >= most) break;
  }
  return cost;
}

/**
 * About what it costs when an operation, or a whole hold with what it delays, goes: to somebody else or another bay at the
 * same time where that is free, else so much later.
 */
function shiftCost(table: Timetable, owner: number, isHold: boolean, minutes: number): number {
  const { model } = table;
  const { previous } = model;
  const order = isHold ? (table.holdOrder[owner] ?? 0) : (model.order[owner] ?? 0);
  const over = table.readyOf(order) + minutes - (model.due[order] ?? 0);
  const late = over > 0 ? over * (model.weight[order] ?? 0) * PER_MINUTE : 0;
  let cost = Math.max(0, late - table.lateOf(order));
  if (isHold)
    for (const one of table.holdMembers[owner] ?? [])
      cost += (previous.moved[one] ?? 0) + minutes * (previous.minuteMoved[one] ?? 0);
  else cost += (previous.moved[owner] ?? 0) + minutes * (previous.minuteMoved[owner] ?? 0);
  const aside = isHold ? otherBay(table, owner, cost) : otherCrew(table, owner, cost);
  return aside < cost ? aside : cost;
}

/** What it costs that a car goes to another bay that is free, at the same time; `most` when there is none for less. */
function otherBay(table: Timetable, hold: number, most: number): number {
  const { model } = table;
  const { holdBays, previous } = model;
  const [from, to] = [table.stayFrom[hold] ?? 0, table.stayTo[hold] ?? 0];
  const standing = table.stayBay[hold] ?? -1;
  const mates = table.holdMembers[hold] ?? [];
  let least = most;
  for (let k = holdBays.first[hold] ?? 0; k < (holdBays.first[hold + 1] ?? 0); k++) {
    const bay = holdBays.item[k] ?? 0;
    if (bay === standing || table.busy[model.bay0 + bay]?.isFree(from, to) !== true) continue;
    let cost = 0;
    for (const one of mates) if (previous.bay[one] !== bay) cost += previous.bayChanged[one] ?? 0;
    if (cost < least) least = cost;
  }
  return least;
}

/** What it costs that somebody else does an operation who is free, at the same time. */
function otherCrew(table: Timetable, o: number, most: number): number {
  const { model } = table;
  const { previous } = model;
  const [start, end] = [table.start[o] ?? 0, table.end[o] ?? 0];
  const is = table.crew[o] ?? -1;
  let least = most;
  for (let crew = model.crewFirst[o] ?? 0; crew < (model.crewFirst[o + 1] ?? 0); crew++) {
    if (crew === is || table.busy[model.crewLead[crew] ?? 0]?.isFree(start, end) !== true) continue;
    const helper = model.crewHelper[crew] ?? -1;
    if (helper >= 0 && table.busy[helper]?.isFree(start, end) !== true) continue;
    if (finishOf(model, crew, start) > end) continue;
    const cost = crew === previous.crew[o] ? 0 : (previous.technician[o] ?? 0);
    if (cost < least) least = cost;
  }
  return least;
}
