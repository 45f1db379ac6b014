import { ppm } from '#libs/kernel';
import type { Cents, Ppm } from '#libs/kernel';
import type { Quantiles } from '#libs/range';
import { wilson } from '#libs/statistics';
import { ratio } from './ratio.js';
import type { Ratio } from './ratio.js';

export interface ScoredTotal {
  readonly range: Quantiles;
  readonly totalCents: Cents;
}

export const SCORED_LEVELS = [50, 80, 95] as const;
export type ScoredLevel = (typeof SCORED_LEVELS)[number];

export interface HeldShare extends Ratio {
  readonly level: ScoredLevel;
  /** How many of a million should hold at least. Where the same total comes often, a true range holds oftener. */
  readonly expectedPpm: Ppm;
  /** Wilson's interval at 95 percent (NIST/SEMATECH e-Handbook 7.2.4.1); null where nothing was scored. */
  readonly intervalLowPpm: Ppm | null;
  readonly intervalHighPpm: Ppm | null;
}

const AT = { 50: 'p50Cents', 80: 'p80Cents', 95: 'p95Cents' } as const satisfies Record<
  ScoredLevel,
  keyof Quantiles
>;

/** How often the totals stayed at or below a quantile of what was said of them. */
export function heldShare(totals: readonly ScoredTotal[], level: ScoredLevel, whose: string): HeldShare {
  const held = totals.filter(({ range, totalCents }) => totalCents <= range[AT[level]]).length;
  const bounds = wilson(held, totals.length);
  return {
    ...ratio(`${whose} whose total stayed at or below their P${level}`, held, whose, totals.length),
    level,
    expectedPpm: ppm(level * 10_000),
    intervalLowPpm: bounds.ok ? millionths(bounds.value.lo) : null,
    intervalHighPpm: bounds.ok ? millionths(bounds.value.hi) : null,
  };
}

const millionths = (rate: number): Ppm => ppm(Math.round(rate * 1_000_000));
