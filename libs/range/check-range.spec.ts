import { cents, ppm } from '#libs/kernel';
import type { RangeInput, RangeLine } from './range-input.js';
import { range } from './range.js';
import { point } from './spread.js';
import type { Spread } from './spread.js';

const spread = (low: number, likely: number, high: number): Spread => ({ low, likely, high });
const line = (id: string, labour: Spread): RangeLine => ({
  id,
  labour,
  items: point(0),
  itemsTaxPpm: ppm(0),
});
const INPUT: RangeInput = {
  lines: [],
  contingencies: [],
  unseen: [],
  commonSpreadPpm: ppm(0),
  labourTaxPpm: ppm(0),
  supplies: null,
  fixedCents: cents(0),
};

describe('a range is refused, field by field', () => {
  const code = (input: Partial<RangeInput>, effort = { seed: 1, draws: 1000 }) => {
    const result = range({ ...INPUT, ...input }, effort);
    return result.ok ? undefined : [result.fault.code, ...(result.fault.fields ?? []).map((f) => f.pointer)];
  };
  const base = line('a', point(1));

  it.each([
    [{ lines: [{ ...base, labour: spread(2, 1, 3) }] }, ['spread-out-of-order', '/lines/0/labour']],
    [{ lines: [{ ...base, items: spread(1, 4, 3) }] }, ['spread-out-of-order', '/lines/0/items']],
    [{ lines: [{ ...base, labour: spread(-1, 1, 3) }] }, ['figure-invalid', '/lines/0/labour/low']],
    [{ lines: [{ ...base, labour: spread(0, 1.5, 3) }] }, ['figure-invalid', '/lines/0/labour/likely']],
    [{ lines: [{ ...base, labour: spread(0, 1, NaN) }] }, ['figure-invalid', '/lines/0/labour/high']],
    [{ lines: [base, base] }, ['part-listed-twice']],
  ])('%#', (input, expected) => {
    expect(code(input)).toEqual(expected);
  });

  it('chances, caps, rates, seed and draws too', () => {
    const nut = { ...line('nut', point(1)), chancePpm: ppm(1), capCents: cents(1) };
    expect(code({ contingencies: [{ ...nut, chancePpm: 1_000_001 as never }] })).toEqual([
      'figure-invalid',
      '/contingencies/0/chancePpm',
    ]);
    expect(code({ contingencies: [{ ...nut, capCents: -1 as never }] })).toEqual([
      'figure-invalid',
      '/contingencies/0/capCents',
    ]);
    expect(code({ unseen: [{ id: 'a', chancePpm: ppm(1), cents: spread(3, 2, 1) }] })).toEqual([
      'spread-out-of-order',
      '/unseen/0/cents',
    ]);
    expect(code({ commonSpreadPpm: 1_000_001 as never })).toEqual(['figure-invalid', '/commonSpreadPpm']);
    expect(code({}, { seed: -1, draws: 99 })).toEqual(['figure-invalid', '/seed', '/draws']);
    expect(code({}, { seed: 0.5, draws: 100_001 })).toEqual(['figure-invalid', '/seed', '/draws']);
  });
});
