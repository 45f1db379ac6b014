import type { Cents } from '#libs/kernel';
import { formatCents } from './format-cents.js';
import { matrixInversions, type MatrixInversion } from './matrix-inversions.js';
import type { MatrixMethod, PriceBand } from './price-band.js';

/** Something that a shop should know about its price matrix before it sells by it; it may still want it so. */
export interface MatrixWarning {
  /** `matrix-inverts`: a dearer part sells for less. `sells-below-cost`: a band's multiplier is less than one. */
  readonly code: 'matrix-inverts' | 'sells-below-cost';
  readonly detail: string;
  /** The start of the band that it is about. */
  readonly fromCents: Cents;
  /** For an inversion, what `matrixInversions` found. */
  readonly inversion: MatrixInversion | null;
}

const inverts = (inversion: MatrixInversion): MatrixWarning => {
  const { fromCents, toCents, priceCents, cheaperCostCents, cheaperPriceCents, dropCents } = inversion;
  return {
    code: 'matrix-inverts',
    detail:
      `A part that costs ${formatCents(fromCents)} sells for ${formatCents(priceCents)}, ` +
      `${formatCents(dropCents)} less than one that costs ${formatCents(cheaperCostCents)} ` +
      `and sells for ${formatCents(cheaperPriceCents)}. ` +
      `Costs from ${formatCents(fromCents)} to ${formatCents(toCents)} are affected; marginal bands have no such drop.`,
    fromCents,
    inversion,
  };
};

/** What a shop is told about bands that are valid as such (`checkBands`), in the order of the bands. */
export function matrixWarnings(bands: readonly PriceBand[], method: MatrixMethod): MatrixWarning[] {
  const below = bands
    .filter(({ multiplierPpm }) => multiplierPpm < 1_000_000)
    .map(({ fromCents }): MatrixWarning => ({
      code: 'sells-below-cost',
      detail: `The band from ${formatCents(fromCents)} has a multiplier below 1: what lies in it sells for less than it costs.`,
      fromCents,
      inversion: null,
    }));
  return [...matrixInversions(bands, method).map(inverts), ...below].sort(
    (a, b) => a.fromCents - b.fromCents,
  );
}
