import { PER_MINUTE } from './plan-model.js';
import type { Timetable } from './timetable.js';

/** Who wants a resource: an operation, or (of a bay) a car, which does not stand in its own way. */
export type Wanting = { readonly operation: number } | { readonly order: number };

/** About what it costs that all who have a resource in [from, to) give way to what wants it. */
export function pushedIn(
  table: Timetable,
  resource: number,
  [from, to]: readonly [number, number],
  who: Wanting,
): number {
  const list = table.busy[resource];
  if (list === undefined) return 0;
  let cost = 0;
  for (let k = 0; k < list.count; k++) {
    const begins = list.from[k] ?? 0;
    if (begins >= to) break;
    const owner = list.owner[k] ?? -1;
    if ((list.to[k] ?? 0) <= from || owner < 0) continue;
    if ('operation' in who ? owner === who.operation : table.holdOrder[owner] === who.order) continue;
    cost += 1 + shiftCost(table, owner, 'order' in who, to - begins);
  }
  return cost;
}

/** About what it costs when an operation, or a whole hold with what it delays, goes so much later. */
function shiftCost(table: Timetable, owner: number, isHold: boolean, minutes: number): number {
  const { model } = table;
  const members = isHold ? (table.holdMembers[owner] ?? []) : [owner];
  const order = isHold ? (table.holdOrder[owner] ?? 0) : (model.order[owner] ?? 0);
  let cost = 0;
  for (const one of members)
    cost += (model.previous.moved[one] ?? 0) + minutes * (model.previous.minuteMoved[one] ?? 0);
  const over = table.readyOf(order) + minutes - (model.due[order] ?? 0);
  const late = over > 0 ? over * (model.weight[order] ?? 0) * PER_MINUTE : 0;
  return cost + Math.max(0, late - table.lateOf(order));
}
