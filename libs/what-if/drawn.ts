import { seeded } from '#libs/chance';
import { normalQuantile } from '#libs/statistics';
import type { HoursSpread } from './year-description.js';

/** A number from 0 up to but not including 1 that belongs to these words alone: no other draw can move it. */
export function drawn(seed: number, ...words: readonly (string | number)[]): number {
  return streamOf(seed, ...words)();
}

/** Numbers that belong to these words alone. */
export function streamOf(seed: number, ...words: readonly (string | number)[]): () => number {
  // FNV-1a (Fowler, Noll, Vo; RFC 9923) over the words, so that neighbours have seeds far apart.
  let hash = 0x811c9dc5;
  for (const letter of `${seed}|${words.join('|')}`)
    hash = Math.imul(hash ^ (letter.codePointAt(0) ?? 0), 0x01000193);
  return seeded(hash);
}

/**
 * A factor of mean 1 at this part of its distribution: 1, lognormal exp(σz - σ²/2) or exponential -ln(1 - u), each by
 * inversion (L. Devroye, "Non-Uniform Random Variate Generation", 1986, chapter 2; from memory).
 */
export function factorAt(part: () => number, { shape, spreadPpm }: Partial<HoursSpread>): number {
  if (shape === 'exponential') return -Math.log1p(-part());
  if (shape !== 'lognormal') return 1;
  const spread = (spreadPpm ?? 0) / 1_000_000;
  // The generator gives 32 bits and may give zero, which has no quantile.
  return Math.exp(spread * normalQuantile(Math.max(part(), 2 ** -33)) - (spread * spread) / 2);
}
