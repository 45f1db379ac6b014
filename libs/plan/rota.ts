import { FAR } from './far.js';
import type { Period } from './plan-problem.js';

const BUCKETS = 512;

/** The working periods of everybody, one list after the other, each ended by a period at `FAR`. */
export interface Rota {
  /** Where in `from` and `to` a calendar begins. */
  readonly first: Int32Array;
  readonly from: Int32Array;
  readonly to: Int32Array;
  /** For each calendar `BUCKETS + 1` entries: the first period that ends after the bucket's start. */
  readonly bucket: Int32Array;
  readonly shift: number;
}

export const bucketsOf = (): number => BUCKETS + 1;

/** The times that lie in both lists of periods. */
export function inBoth(one: readonly Period[], other: readonly Period[]): Period[] {
  const shared: Period[] = [];
  let [i, j] = [0, 0];
  for (;;) {
    const [a, b] = [one[i], other[j]];
    if (a === undefined || b === undefined) return shared;
    const from = Math.max(a[0], b[0]);
    const to = Math.min(a[1], b[1]);
    if (from < to) shared.push([from, to]);
    if (a[1] <= b[1]) i++;
    else j++;
  }
}

/** Periods that touch are one: work does not rest between them. */
export function joined(periods: readonly Period[]): Period[] {
  const whole: [number, number][] = [];
  for (const [from, to] of periods) {
    const last = whole.at(-1);
    if (last !== undefined && last[1] >= from) last[1] = Math.max(last[1], to);
    else if (from < to) whole.push([from, to]);
  }
  return whole;
}

export function rotaOf(calendars: readonly (readonly Period[])[]): Rota {
  const lists = calendars.map((calendar) => joined(calendar));
  const last = lists.reduce((latest, list) => Math.max(latest, list.at(-1)?.[1] ?? 0), 1);
  let shift = 0;
  while (last >> shift >= BUCKETS) shift++;
  const first = new Int32Array(lists.length);
  const size = lists.reduce((sum, list) => sum + list.length + 1, 0);
  const [from, to] = [new Int32Array(size), new Int32Array(size)];
  const bucket = new Int32Array(lists.length * (BUCKETS + 1));
  let at = 0;
  lists.forEach((list, calendar) => {
    first[calendar] = at;
    let period = 0;
    for (let b = 0; b <= BUCKETS; b++) {
      const start = b === BUCKETS ? FAR : b << shift;
      while ((list[period]?.[1] ?? 2 * FAR) <= start) period++;
      bucket[calendar * (BUCKETS + 1) + b] = at + period;
    }
    for (const [opens, closes] of [...list, [FAR, 3 * FAR] as const]) {
      from[at] = opens;
      to[at++] = closes;
    }
  });
  return { first, from, to, bucket, shift };
}
