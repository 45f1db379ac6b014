import { ppm } from '#libs/kernel';
import type { Cents, Ppm } from '#libs/kernel';
import { wilson } from '#libs/statistics';
import type { Range } from './range-input.js';

/** A job that is done: what was said, and what it came to. */
export interface ScoredPair {
  readonly range: Pick<Range, 'p80Cents'>;
  readonly actualCents: Cents;
}

export interface Coverage {
  readonly n: number;
  /** How many of them stayed at or below their P80. */
  readonly held: number;
  /** `held` of `n`; of nothing it is null, as there is nothing to say. */
  readonly heldPpm: Ppm | null;
  /** Wilson's interval at 95 percent: a range that is right holds eight of ten, so 800 000 should lie within it. */
  readonly interval: { readonly loPpm: Ppm; readonly hiPpm: Ppm } | null;
}

/** How often the P80 held. */
export function coverage(pairs: readonly ScoredPair[]): Coverage {
  const n = pairs.length;
  const held = pairs.filter(({ range, actualCents }) => actualCents <= range.p80Cents).length;
  const bounds = wilson(held, n);
  if (!bounds.ok) return { n, held, heldPpm: null, interval: null };
  const { lo, hi } = bounds.value;
  return {
    n,
    held,
    heldPpm: millionths(held / n),
    interval: { loPpm: millionths(lo), hiPpm: millionths(hi) },
  };
}

const millionths = (rate: number): Ppm => ppm(Math.round(rate * 1_000_000));
