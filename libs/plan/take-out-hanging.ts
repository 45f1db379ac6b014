import type { Timetable } from './timetable.js';

/** Takes out what cannot be done because something has no place: what follows it, and a teardown that was not begun. */
export function takeOutHanging(table: Timetable, free: readonly number[]): void {
  const { model, start } = table;
  const { first, item } = model.before;
  const isOut = (o: number): boolean => (start[o] ?? -1) < 0;
  const isHanging = (o: number): boolean => {
    for (let k = first[o] ?? 0; k < (first[o + 1] ?? 0); k++) if (isOut(item[k] ?? 0)) return true;
    const hold = model.hold[o] ?? -1;
    return hold >= 0 && table.wasStarted[hold] !== 1 && (table.holdMembers[hold] ?? []).some(isOut);
  };
  for (let isDone = false; !isDone;) {
    isDone = true;
    for (const o of free) {
      if (isOut(o) || !isHanging(o)) continue;
      table.take(o);
      isDone = false;
    }
  }
}
