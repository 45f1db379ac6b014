import type { PlanModel } from './plan-model.js';
import type { Timetable } from './timetable.js';

/** The places of a timetable, held fast. */
export interface Kept {
  readonly start: Int32Array;
  readonly end: Int32Array;
  readonly crew: Int32Array;
  readonly bay: Int32Array;
  readonly unit: Int32Array;
}

export const kept = (table: Timetable): Kept => cloned(table);

export function cloned({ start, end, crew, bay, unit }: Kept): Kept {
  return {
    ...{ start: start.slice(), end: end.slice(), crew: crew.slice() },
    ...{ bay: bay.slice(), unit: unit.slice() },
  };
}

export function copy(table: Timetable, to: Kept): void {
  to.start.set(table.start);
  to.end.set(table.end);
  to.crew.set(table.crew);
  to.bay.set(table.bay);
  to.unit.set(table.unit);
}

/** How many operations must be over before each, one after the other. */
export function depthOf({ operations, before }: PlanModel): Int32Array {
  const depth = new Int32Array(operations).fill(-1);
  const of = (o: number): number => {
    if ((depth[o] ?? -1) >= 0) return depth[o] ?? 0;
    let most = 0;
    for (let k = before.first[o] ?? 0; k < (before.first[o + 1] ?? 0); k++)
      most = Math.max(most, 1 + of(before.item[k] ?? 0));
    depth[o] = most;
    return most;
  };
  for (let o = 0; o < operations; o++) of(o);
  return depth;
}
