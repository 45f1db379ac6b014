import { FAR } from './far.js';
import type { Timetable } from './timetable.js';

/** When all that must be over before an operation is, as far as it has places. */
export function readyOf({ model, end }: Timetable, o: number): number {
  const { first, item } = model.before;
  let ready = model.release[o] ?? 0;
  for (let k = first[o] ?? 0; k < (first[o + 1] ?? 0); k++) {
    const over = end[item[k] ?? 0] ?? 0;
    if (over > ready) ready = over;
  }
  return ready;
}

/** When the first of what comes after it starts. */
export function latestOf({ model, start }: Timetable, o: number): number {
  const { first, item } = model.after;
  let latest = FAR;
  for (let k = first[o] ?? 0; k < (first[o + 1] ?? 0); k++) {
    const begins = start[item[k] ?? 0] ?? -1;
    if (begins >= 0 && begins < latest) latest = begins;
  }
  return latest;
}
