import { cents, ok, ppm } from '#libs/kernel';
import { parseRatePpm, suppliesCharge } from '#libs/money';
import type { Computation } from './computation.js';
import { FieldReader } from './field-reader.js';

/** Sums stay exact integers. */
const LARGEST = 1_000_000_000_000;

export const supplies: Computation = {
  name: 'supplies',
  shape: '{labourCents, rate: "0.06", capCents?: 3500, floorCents?: 0} -> {chargeCents}',
  run: (element) => {
    const read = new FieldReader(element);
    const labour = read.whole('labourCents', { min: -LARGEST, max: LARGEST });
    const rate = read.parsed('rate', parseRatePpm(read.text('rate')), ppm(0));
    if (rate > 1_000_000) read.invalid('rate', 'must be at most 1, such as "0.06" for 6 percent');
    const cap = read.optionalWhole('capCents', { min: 0, max: LARGEST });
    const floor = read.optionalWhole('floorCents', { min: 0, max: LARGEST });
    return read.answer(() =>
      ok({
        chargeCents: suppliesCharge({
          labourCents: cents(labour),
          ratePpm: rate,
          ...(cap === undefined ? {} : { capCents: cents(cap) }),
          ...(floor === undefined ? {} : { floorCents: cents(floor) }),
        }),
      }),
    );
  },
};
