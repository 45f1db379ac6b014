import { cents, ppm } from '#libs/kernel';
import { normalQuantile } from '#libs/statistics';
import { closedForm, exactMoments } from './closed-form.js';
import { carriedSpread, labourSpread } from './labour-spread.js';
import type { RangeContingency, RangeInput, RangeLine } from './range-input.js';
import { range } from './range.js';
import { seedOf } from './seed-of.js';
import { point } from './spread.js';
import type { Spread } from './spread.js';

const spread = (low: number, likely: number, high: number): Spread => ({ low, likely, high });
const line = (id: string, labour: Spread, items: Spread = point(0), taxPpm = 0): RangeLine => ({
  id,
  labour,
  items,
  itemsTaxPpm: ppm(taxPpm),
});
const extra = (id: string, chance: number, labour: number, items: number, cap: number | null = null) => ({
  ...line(id, point(labour), point(items)),
  chancePpm: ppm(chance),
  capCents: cap === null ? null : cents(cap),
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
const DRAWS = 10_000;

function drawn(input: Partial<RangeInput>, seed = 1, draws = DRAWS) {
  const result = range({ ...INPUT, ...input }, { seed, draws });
  if (!result.ok) throw new Error(`${result.fault.detail} ${JSON.stringify(result.fault.fields)}`);
  return result.value;
}
function formula(input: Partial<RangeInput>) {
  const result = closedForm({ ...INPUT, ...input });
  if (!result.ok) throw new Error(result.fault.detail);
  return result.value;
}
const shareOf = (shares: { id: string | null; sharePpm: number }[], id: string | null): number =>
  (shares.find((share) => share.id === id)?.sharePpm ?? NaN) / 1_000_000;

/** A shop's day: 20 lines, some with an extra, some checkpoints unseen. */
const DAY: Partial<RangeInput> = {
  lines: Array.from({ length: 20 }, (_, at) =>
    line(
      `line ${at}`,
      spread(8000 + 500 * at, 10_000 + 600 * at, 16_000 + 900 * at),
      spread(5000, 6000 + 100 * at, 9000 + 400 * at),
      80_000,
    ),
  ),
  contingencies: Array.from({ length: 8 }, (_, at) => extra(`extra ${at}`, 50_000 + 60_000 * at, 6000, 3000)),
  unseen: Array.from({ length: 6 }, (_, at) => ({
    id: `unseen ${at}`,
    chancePpm: ppm(30_000 + 20_000 * at),
    cents: spread(5000, 15_000, 60_000),
  })),
  labourTaxPpm: ppm(50_000),
};

describe('against formulas', () => {
  it('a point is a point, tax in it', () => {
    const still = drawn({
      lines: [line('a', point(10_000), point(5000), 80_000), line('b', point(333))],
      contingencies: [extra('never', 0, 99_999, 99_999)],
      unseen: [{ id: 'never', chancePpm: ppm(0), cents: spread(1, 2, 3) }],
      labourTaxPpm: ppm(100_000),
      fixedCents: cents(1000),
    });
    const amount = 1000 + 11_000 + 5400 + 366;
    expect(still).toMatchObject({
      p10Cents: amount,
      p50Cents: amount,
      p80Cents: amount,
      p95Cents: amount,
      meanCents: amount,
      sdCents: 0,
    });
    expect(still.shares.every(({ sharePpm }) => sharePpm === 0)).toBe(true);
  });

  it('nothing at all costs what is fixed', () => {
    expect(drawn({ fixedCents: cents(700) })).toMatchObject({ p10Cents: 700, p95Cents: 700, sdCents: 0 });
  });

  it('quantiles of a single triangular are those of its closed form', () => {
    // 10 000, 14 000, 30 000: F(c) = 0.2, beyond it b - sqrt((1 - p)(b - a)(b - c)); below it a + sqrt(p (b - a)(c - a)).
    const one = drawn({ lines: [line('a', spread(10_000, 14_000, 30_000))] }, 3, 100_000);
    const above = (p: number): number => 30_000 - Math.sqrt((1 - p) * 20_000 * 16_000);
    // Three standard deviations of a sample quantile: sqrt(p (1 - p) / n) over the density there.
    expect(Math.abs(one.p10Cents - (10_000 + Math.sqrt(0.1 * 20_000 * 4000)))).toBeLessThan(45);
    expect(Math.abs(one.p50Cents - above(0.5))).toBeLessThan(65);
    expect(Math.abs(one.p80Cents - above(0.8))).toBeLessThan(80);
    expect(Math.abs(one.p95Cents - above(0.95))).toBeLessThan(85);
  });

  it('mean and variance of triangular and Bernoulli parts are those of their sums', () => {
    const exact = exactMoments({ ...INPUT, ...DAY });
    if (exact === null) throw new Error('there is a closed form');
    const variance = exact.variances.reduce((sum, one) => sum + one, 0);
    const many = drawn(DAY, 11, 100_000);
    // Four standard errors: sd / sqrt(n), and for the sd about sd / sqrt(2 n).
    const sd = Math.sqrt(variance);
    expect(Math.abs(many.meanCents - exact.mean)).toBeLessThan((4 * sd) / Math.sqrt(100_000));
    expect(Math.abs(many.sdCents - sd)).toBeLessThan((4 * sd) / Math.sqrt(200_000));
    expect(formula(DAY)).toMatchObject({ meanCents: Math.round(exact.mean), sdCents: Math.round(sd) });
  });

  it('a contingency by hand: one in four, 60 of labour and 40 of parts', () => {
    // Mean 0.25 · 10 000; variance 0.25 · 0.75 · 10 000², labour and parts coming together.
    const input = { contingencies: [extra('nut', 250_000, 6000, 4000)] };
    expect(formula(input)).toMatchObject({
      meanCents: 2500,
      sdCents: Math.round(Math.sqrt(0.1875) * 10_000),
    });
    const seen = drawn(input);
    expect(Math.abs(seen.meanCents - 2500)).toBeLessThan(175);
    expect(seen).toMatchObject({ p10Cents: 0, p50Cents: 0, p80Cents: 10_000, p95Cents: 10_000 });
  });

  it('the common factor: Var(CH) = Var(H)(1 + v) + v·E(H)²', () => {
    const input = {
      lines: [line('a', spread(8000, 10_000, 15_000)), line('b', spread(2000, 9000, 10_000))],
      commonSpreadPpm: ppm(200_000),
    };
    const mean = 11_000 + 7000;
    const own = (4 + 10 + 25 + 49 + 7 + 1) / 18; // in thousands squared: (2² + 2·5 + 5²) and (7² + 7·1 + 1²)
    const variance = own * 1e6 * 1.04 + 0.04 * mean * mean;
    expect(formula(input)).toMatchObject({
      meanCents: mean,
      sdCents: Math.round(Math.sqrt(variance)),
    });
    const many = drawn(input, 5, 100_000);
    const sd = Math.sqrt(variance);
    expect(Math.abs(many.meanCents - mean)).toBeLessThan((4 * sd) / Math.sqrt(100_000));
    // The factor is skewed, which makes the sd of a sample a little less certain: six standard errors of a normal one.
    expect(Math.abs(many.sdCents - sd)).toBeLessThan((6 * sd) / Math.sqrt(200_000));
    const common = (0.04 * mean * mean) / variance;
    expect(Math.abs(shareOf([...many.shares], null) - common)).toBeLessThan(0.02);
    expect(shareOf([...(formula(input)?.shares ?? [])], null)).toBeCloseTo(common, 5);
  });

  it('the common factor alone is lognormal with mean 1', () => {
    const sigma = Math.sqrt(Math.log(1.09));
    const one = drawn({ lines: [line('a', point(100_000))], commonSpreadPpm: ppm(300_000) }, 2, 100_000);
    const at = (p: number): number => 100_000 * Math.exp(sigma * normalQuantile(p) - (sigma * sigma) / 2);
    // Four standard deviations of a sample quantile of this many draws are about one percent at P95, less inside.
    expect(Math.abs(one.p50Cents / at(0.5) - 1)).toBeLessThan(0.006);
    expect(Math.abs(one.p80Cents / at(0.8) - 1)).toBeLessThan(0.007);
    expect(Math.abs(one.p95Cents / at(0.95) - 1)).toBeLessThan(0.01);
    expect(Math.abs(one.meanCents - 100_000)).toBeLessThan(400);
  });

  it('many independent lines come near the normal distribution', () => {
    const lines = Array.from({ length: 60 }, (_, at) => line(`${at}`, spread(6000, 10_000, 14_000)));
    const one = drawn({ lines }, 9, 100_000);
    const sd = Math.sqrt(60 * (8000 ** 2 / 24));
    for (const [p, value] of [
      [0.1, one.p10Cents],
      [0.5, one.p50Cents],
      [0.8, one.p80Cents],
      [0.95, one.p95Cents],
    ] as const)
      expect(Math.abs(value - (600_000 + sd * normalQuantile(p)))).toBeLessThan(sd * 0.03);
  });

  it('shares of the variance are those of the closed form', () => {
    const input = { ...DAY, commonSpreadPpm: ppm(100_000) };
    const exact = formula(input)?.shares ?? [];
    const seen = drawn(input, 4, 50_000).shares;
    expect(exact.length).toBe(20 + 8 + 6 + 1);
    expect(seen.map(({ kind, id }) => ({ kind, id }))).toEqual(exact.map(({ kind, id }) => ({ kind, id })));
    for (const [at, share] of seen.entries())
      expect(Math.abs(share.sharePpm - (exact[at]?.sharePpm ?? NaN))).toBeLessThan(15_000);
    expect(seen.reduce((sum, { sharePpm }) => sum + sharePpm, 0)).toBe(1_000_000);
    expect(exact.reduce((sum, { sharePpm }) => sum + sharePpm, 0)).toBe(1_000_000);
  });
});

describe('what the owner would pay', () => {
  const supplies = {
    ratePpm: ppm(50_000),
    floorCents: cents(0),
    capCents: null,
    base: 'labour',
    givenBaseCents: cents(0),
    givenSuppliesCents: cents(0),
    taxPpm: ppm(100_000),
  } as const;

  it('supplies follow the labour of each draw, up to their cap and from their floor', () => {
    const lines = [line('a', spread(10_000, 10_000, 30_000), point(5000))];
    // At 5 percent with 10 percent of tax each cent of labour makes 1.055.
    const free = drawn({ lines, supplies }, 1, 100_000);
    const plain = drawn({ lines }, 1, 100_000);
    expect(Math.abs(free.p80Cents - ((plain.p80Cents - 5000) * 1.055 + 5000))).toBeLessThanOrEqual(1.1);
    expect(formula({ lines, supplies })?.meanCents).toBe(Math.round((50_000 / 3) * 1.055 + 5000));
    const tight = { ...supplies, capCents: cents(400) };
    const bounded = drawn({ lines, supplies: tight }, 1, 100_000);
    expect(bounded.p80Cents).toBe(plain.p80Cents + 440);
    expect(formula({ lines, supplies: tight })).toEqual(formula({ lines, fixedCents: cents(440) }));
    const inside = { ...supplies, capCents: cents(900) };
    expect(formula({ lines, supplies: inside })).toBeNull();
    const mixed = drawn({ lines, supplies: inside }, 1, 100_000);
    expect(mixed.p95Cents).toBe(plain.p95Cents + 990);
    expect(Math.abs(mixed.p10Cents - ((plain.p10Cents - 5000) * 1.055 + 5000))).toBeLessThanOrEqual(1.1);
    const floor = { ...supplies, floorCents: cents(2000) };
    expect(drawn({ lines, supplies: floor }, 1, 100_000).p95Cents).toBe(plain.p95Cents + 2200);
  });

  it('supplies that were agreed to before are not charged again, and nothing comes without a base', () => {
    const lines = [line('a', point(10_000), point(4000))];
    const given = { ...supplies, givenBaseCents: cents(20_000), givenSuppliesCents: cents(1200) };
    expect(drawn({ lines, supplies: given }).p50Cents).toBe(14_000 + 330);
    expect(drawn({ lines, supplies: { ...supplies, base: 'parts' } }).p50Cents).toBe(14_000 + 220);
    expect(drawn({ lines, supplies: { ...supplies, base: 'labour-and-parts' } }).p50Cents).toBe(14_000 + 770);
    const parts = [line('a', point(0), point(4000))];
    expect(drawn({ lines: parts, supplies: { ...supplies, floorCents: cents(500) } }).p50Cents).toBe(4000);
  });

  it('shares with supplies on labour stay those of the closed form', () => {
    const input = {
      lines: [
        line('a', spread(5000, 10_000, 20_000), spread(1000, 2000, 9000)),
        line('b', spread(1, 2, 9000)),
      ],
      supplies: { ...supplies, ratePpm: ppm(300_000) },
      commonSpreadPpm: ppm(150_000),
    };
    const exact = formula(input)?.shares ?? [];
    for (const [at, share] of drawn(input, 8, 100_000).shares.entries())
      expect(Math.abs(share.sharePpm - (exact[at]?.sharePpm ?? NaN))).toBeLessThan(12_000);
  });

  it('the exact price of the lines, rounding and all, is what the range is about', () => {
    const lines = [line('a', point(3333), point(777), 72_500)];
    expect(drawn({ lines, supplies, likelyCents: cents(4_200) }).p50Cents).toBe(4200);
    const wide = { lines: [line('a', spread(3000, 3333, 5000), point(777), 72_500)], supplies };
    const sum = drawn(wide).p80Cents;
    const put = drawn({ ...wide, likelyCents: cents(4_350) }).p80Cents;
    expect(Math.abs(put - sum - (4350 - (3333 * 1.055 + 777 * 1.0725)))).toBeLessThanOrEqual(1);
  });

  it('a contingency never comes to more than its cap, whatever the common factor does', () => {
    const nut: RangeContingency = {
      ...extra('nut', 1_000_000, 0, 4000, 9000),
      labour: spread(4000, 6000, 30_000),
    };
    const seen = drawn({ contingencies: [nut], commonSpreadPpm: ppm(500_000) });
    expect(seen.p95Cents).toBe(9000);
    expect(seen.p10Cents).toBeGreaterThan(4000);
    expect(seen.p10Cents).toBeLessThan(9000);
    expect(formula({ contingencies: [nut] })).toBeNull();
    // Twice the cap comes down to the cap: one in ten of 9000.
    const certain = { contingencies: [extra('nut', 100_000, 10_000, 8000, 9000)] };
    expect(formula(certain)).toMatchObject({ meanCents: 900, sdCents: 2700 });
    expect(drawn(certain)).toMatchObject({ p80Cents: 0, p95Cents: 9000 });
  });
});

describe('a seed', () => {
  const input = { ...DAY, commonSpreadPpm: ppm(100_000) };

  it('gives the same range again, and another seed another', () => {
    expect(drawn(input, 42)).toEqual(drawn(input, 42));
    expect(drawn(input, 43).p80Cents).not.toBe(drawn(input, 42).p80Cents);
    expect(seedOf('rev-1')).toBe(seedOf('rev-1'));
    expect(seedOf('rev-1')).not.toBe(seedOf('rev-2'));
  });

  it('moves the P80 by less than one percent over 50 seeds', () => {
    const p80 = Array.from({ length: 50 }, (_, seed) => drawn(input, seed).p80Cents);
    const middle = p80.reduce((sum, one) => sum + one, 0) / p80.length;
    for (const one of p80) expect(Math.abs(one / middle - 1)).toBeLessThan(0.01);
  });
});

describe('ten thousand draws of sixty lines', () => {
  it('take well under a tenth of a second of processor time', () => {
    const lines = Array.from({ length: 60 }, (_, at) =>
      line(`${at}`, spread(8000, 10_000 + at, 16_000), spread(5000, 6000, 9000), 80_000),
    );
    const spent = Array.from({ length: 15 }, (_, seed) => {
      const before = process.cpuUsage();
      drawn({ lines, commonSpreadPpm: ppm(150_000) }, seed);
      return process.cpuUsage(before).user / 1000;
    });
    // Of a shared machine the quickest run says most; collecting garbage counts as processor time too.
    expect(Math.min(...spent)).toBeLessThan(80);
  });
});

describe('spreads of what a line carries', () => {
  it('hours become labour at the rate, half up', () => {
    expect(labourSpread(spread(150, 225, 333), cents(9_950))).toEqual(spread(14_925, 22_388, 33_134));
  });

  it('keep their proportions when the line shares its steps or has a discount', () => {
    expect(carriedSpread(spread(10_000, 20_000, 50_000), 12_000)).toEqual(spread(6000, 12_000, 30_000));
    expect(carriedSpread(spread(10_000, 20_000, 50_000), 0)).toEqual(point(0));
    expect(carriedSpread(spread(0, 0, 5000), 0)).toEqual(spread(0, 0, 5000));
  });
});
