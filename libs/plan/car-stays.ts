import { FAR } from './far.js';
import type { Timetable } from './timetable.js';

/** When the car of an operation is free for it at [s, e): of other work on it in a bay, and of other bays in which it stands. */
export function carFree(table: Timetable, o: number, s: number, e: number): number {
  const { model } = table;
  const order = model.order[o] ?? 0;
  const hold = model.hold[o] ?? 0;
  const last = model.orderEnd[order] ?? 0;
  const isIn = (table.stayCount[hold] ?? 0) > 0;
  const from = isIn ? Math.min(s, table.stayFrom[hold] ?? 0) : s;
  const to = isIn ? Math.max(e, table.stayTo[hold] ?? 0) : e;
  let next = -1;
  for (let other = model.orderFirst[order] ?? 0; other < last; other++) {
    if (other === o || (table.bay[other] ?? -1) < 0) continue;
    if ((table.start[other] ?? 0) < e && (table.end[other] ?? 0) > s)
      next = Math.max(next, table.end[other] ?? 0);
    const own = model.hold[other] ?? -1;
    if (own === hold) continue;
    const meets = (table.stayFrom[own] ?? 0) < to && (table.stayTo[own] ?? 0) > from;
    if (!meets || table.stayBay[own] === (isIn ? table.stayBay[hold] : -1)) continue;
    // A car that is brought in anew may be worked on where it stands apart already (`bayApart`).
    if (!isIn && (model.several[own] ?? -1) >= 0) continue;
    next = Math.max(next, isIn ? FAR : (table.stayTo[own] ?? 0));
  }
  return next;
}

/** The bay in which the car of an operation stands apart for something else at [s, needed), -1 when it does not. */
export function bayApart(table: Timetable, o: number, s: number, needed: number): number {
  const { model } = table;
  const order = model.order[o] ?? 0;
  const last = model.orderEnd[order] ?? 0;
  for (let other = model.orderFirst[order] ?? 0; other < last; other++) {
    const own = model.hold[other] ?? -1;
    if (own < 0 || own === model.hold[o] || (table.stayCount[own] ?? 0) === 0) continue;
    if ((table.stayFrom[own] ?? 0) < needed && (table.stayTo[own] ?? 0) > s) return table.stayBay[own] ?? -1;
  }
  return -1;
}

/** When the last of such stays is over, later than `s`. */
export function apartUntil(table: Timetable, o: number, s: number): number {
  const { model } = table;
  const order = model.order[o] ?? 0;
  const last = model.orderEnd[order] ?? 0;
  let end = s + 1;
  for (let other = model.orderFirst[order] ?? 0; other < last; other++) {
    const own = model.hold[other] ?? -1;
    if (own >= 0 && own !== model.hold[o] && (table.stayCount[own] ?? 0) > 0)
      end = Math.max(end, table.stayTo[own] ?? 0);
  }
  return end;
}
