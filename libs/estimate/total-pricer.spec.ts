import fc from 'fast-check';
import { bookHundredths, cents, ppm } from '#libs/kernel';
import { NOTHING_AGREED } from './already-agreed.js';
import type { ChoiceInput } from './check-choice.js';
import { ITEM_KINDS } from './estimate-line.js';
import { priceChoice } from './price-choice.js';
import { totalPricer } from './total-pricer.js';

const HOURS = [150, 33, 0, 10, 1, 220];
const aLine = fc.record({
  rateCentsPerHour: fc.constantFrom(0, 9500, 14_250, 14_251).map(cents),
  steps: fc.subarray([...HOURS.keys()]).map((picked) =>
    picked.map((at) => ({
      step: `step ${at}`,
      position: 'engine',
      hundredths: bookHundredths(HOURS[at] ?? 0),
    })),
  ),
  items: fc.array(
    fc.record({
      id: fc.uuid(),
      kind: fc.constantFrom(...ITEM_KINDS),
      quantityHundredths: fc.nat(500),
      unitPriceCents: fc.nat(30_000).map(cents),
      coreCents: fc.option(fc.nat(5000).map(cents), { nil: undefined }),
    }),
    { maxLength: 2 },
  ),
});

const anInput: fc.Arbitrary<ChoiceInput> = fc.record({
  lines: fc
    .array(aLine, { minLength: 1, maxLength: 5 })
    .map((lines) => lines.map((line, at) => ({ id: `line ${at}`, rateId: 'r', ...line }))),
  chosen: fc.subarray(['line 0', 'line 1', 'line 2']),
  given: fc.constantFrom(NOTHING_AGREED, {
    steps: [
      { step: 'step 0', position: 'engine' },
      { step: 'step 5', position: 'engine', hundredths: bookHundredths(100) },
    ],
    labourCents: cents(30_000),
    suppliesCents: cents(900),
  }),
  policy: fc.record({
    taxes: fc
      .array(
        fc.record({
          ratePpm: fc.nat(120_000).map(ppm),
          on: fc.subarray<'labour' | 'supplies' | 'part' | 'fee'>(['labour', 'supplies', 'part', 'fee']),
        }),
        { maxLength: 2 },
      )
      .map((taxes) => taxes.map((tax, at) => ({ name: `tax ${at}`, ...tax }))),
    taxRounding: fc.constantFrom('line', 'invoice'),
    supplies: fc.option(
      fc.record({
        ratePpm: fc.nat(90_000).map(ppm),
        floorCents: fc.constantFrom(0, 1500).map(cents),
        capCents: fc.constantFrom(null, cents(1000), cents(4000)),
      }),
      { nil: null },
    ),
  }),
});

describe('the total alone', () => {
  it('is the total of the whole price, for any choice under any policy', () => {
    fc.assert(
      fc.property(anInput, (drawn) => {
        const ids = new Set(drawn.lines.map(({ id }) => id));
        const input = { ...drawn, chosen: drawn.chosen.filter((id) => ids.has(id)) };
        const whole = priceChoice(input);
        const total = totalPricer(input);
        if (!whole.ok || !total.ok) throw new Error('the drawn estimate cannot be priced');
        const chosen = input.lines.filter(({ id }) => input.chosen.includes(id));
        expect(total.value(chosen)).toBe(whole.value.totals.totalCents);
      }),
      { numRuns: 2000 },
    );
  });

  it('refuses what cannot be priced before anything is asked', () => {
    const line = { id: 'a', rateId: 'r', rateCentsPerHour: cents(-1), steps: [], items: [] };
    const policy = { taxes: [], taxRounding: 'invoice', supplies: null } as const;
    expect(totalPricer({ lines: [line], given: NOTHING_AGREED, policy })).toMatchObject({
      ok: false,
      fault: { code: 'figure-invalid' },
    });
  });
});
