import type { Cents, Ppm } from '#libs/kernel';

/** One band of a price matrix: from this cost up to the next band's. */
export interface PriceBand {
  readonly fromCents: Cents;
  /** Price for each unit of cost: 2.2 times the cost is 2 200 000. */
  readonly multiplierPpm: Ppm;
}

/**
 * `marginal`: each part of the cost is multiplied by the band that it lies in, so that a dearer part never sells for
 * less. `whole-band`: the whole cost is multiplied by the band that it ends up in, which can invert at a band's start.
 */
export const MATRIX_METHODS = ['marginal', 'whole-band'] as const;
export type MatrixMethod = (typeof MATRIX_METHODS)[number];
