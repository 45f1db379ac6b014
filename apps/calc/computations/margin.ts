import { ok } from '#libs/kernel';
import { formatDecimal, marginFromMarkup } from '#libs/money';
import type { Computation } from './computation.js';
import { FieldReader } from './field-reader.js';
import { readNumber } from './read-money.js';

export const margin: Computation = {
  name: 'margin',
  shape: '{markupPercent: 50 | "50"} -> {marginPercent: 33.33}',
  run: (element) => {
    const read = new FieldReader(element);
    const percent = readNumber(read, 'markupPercent');
    // A hundredth of the percentage is the fraction; the answer goes back to percent, with two places.
    const markup = { units: percent.units, scale: percent.scale + 2 };
    const fraction = read.parsed('markupPercent', marginFromMarkup(markup, 4), { units: 0n, scale: 4 });
    return read.answer(() =>
      ok({ marginPercent: Number(formatDecimal({ units: fraction.units, scale: 2 })) }),
    );
  },
};
