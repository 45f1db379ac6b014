import { cents, ok, ppm } from '#libs/kernel';
import {
  checkBands,
  matrixPrice,
  matrixWarnings,
  MATRIX_METHODS,
  parseRatePpm,
  type PriceBand,
} from '#libs/money';
import type { Computation } from './computation.js';
import { FieldReader } from './field-reader.js';

const LARGEST = 1_000_000_000_000;
const ONE_BAND: PriceBand = { fromCents: cents(0), multiplierPpm: ppm(1_000_000) };

export const matrix: Computation = {
  name: 'matrix',
  shape:
    '{bands: [[0, 1000, "3.00"], [1000, null, "2.20"]], method?: "marginal" | "whole-band", costCents} -> {priceCents, warnings?: [text]}',
  run: (element) => {
    const read = new FieldReader(element);
    const bands = readBands(read);
    const method = read.oneOf('method', MATRIX_METHODS, 'marginal');
    const cost = cents(read.whole('costCents', { min: -LARGEST, max: LARGEST }));
    return read.answer(() => {
      const price = matrixPrice(bands, method, cost);
      if (!price.ok) return price;
      const warnings = matrixWarnings(bands, method).map(({ detail }) => detail);
      return ok({ priceCents: price.value, ...(warnings.length === 0 ? {} : { warnings }) });
    });
  },
};

/** Bands as [from, to, multiplier]: each ends where the next one starts, and the last has no end (null). */
function readBands(read: FieldReader): PriceBand[] {
  const rows = read.list('bands');
  const bands = rows.map((row, at): PriceBand => {
    const place = `bands[${at}]`;
    const cells: unknown[] = Array.isArray(row) ? row : [];
    const [from, to, multiplier] = cells;
    if (cells.length !== 3 || typeof from !== 'number' || typeof multiplier !== 'string') {
      read.invalid(place, 'must be [from, to, multiplier], such as [0, 1000, "3.00"] in cents');
      return ONE_BAND;
    }
    const next: unknown = rows[at + 1];
    const follows: unknown = Array.isArray(next) ? next[0] : null;
    if ((to ?? null) !== follows) {
      read.invalid(
        place,
        next === undefined ? 'is the last band: its end is null' : 'must end where the next band starts',
      );
    }
    if (!Number.isSafeInteger(from)) read.invalid(place, 'must start at a whole number of cents');
    const rate = read.parsed(place, parseRatePpm(multiplier), ONE_BAND.multiplierPpm);
    return { fromCents: cents(Number.isSafeInteger(from) ? from : 0), multiplierPpm: rate };
  });
  const checked = checkBands(bands);
  for (const { pointer, detail } of checked.ok ? [] : (checked.fault.fields ?? [])) {
    const place = /^\/bands\/(\d+)/.exec(pointer)?.[1];
    const field = place === undefined ? 'bands' : `bands[${place}]`;
    if (!read.isRefused(field)) read.invalid(field, `is wrong: ${detail.replace(/\.$/, '')}`);
  }
  return bands;
}
