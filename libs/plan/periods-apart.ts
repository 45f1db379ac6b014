import type { Period } from './plan-problem.js';

/** Periods in order, those that meet as one. */
export function periodsApart(periods: readonly Period[]): Period[] {
  const whole: [number, number][] = [];
  for (const [from, to] of [...periods].sort((a, b) => a[0] - b[0])) {
    const last = whole.at(-1);
    if (last !== undefined && from <= last[1]) last[1] = Math.max(last[1], to);
    else whole.push([from, to]);
  }
  return whole;
}
