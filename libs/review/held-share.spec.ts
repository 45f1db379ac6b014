import { bookHundredths, cents, ppm } from '#libs/kernel';
import { freezeRevision, NOTHING_AGREED } from '#libs/estimate';
import type { RevisionLine } from '#libs/estimate';
import { heldShare } from './held-share.js';
import { rangeOfAgreed } from './range-of-agreed.js';

const RANGE = {
  p10Cents: cents(10_000),
  p50Cents: cents(12_000),
  p80Cents: cents(14_000),
  p95Cents: cents(17_000),
};
const totals = (...of: number[]) => of.map((total) => ({ range: RANGE, totalCents: cents(total) }));
const pump: RevisionLine = {
  id: 'pump',
  title: 'Water pump',
  verdict: null,
  mayDrive: null,
  why: 'The bearing is worn.',
  consequence: 'It leaks.',
  operations: ['Pump off and on'],
  rateId: 'general',
  rateCentsPerHour: cents(10_000),
  steps: [{ step: 'pump', position: 'vehicle', hundredths: bookHundredths(200) }],
  items: [],
};
const UNSEEN = {
  checkpointId: 'joint',
  words: 'Ball joint',
  chancePpm: ppm(300_000),
  lowCents: cents(10_000),
  likelyCents: cents(10_000),
  highCents: cents(10_000),
};
function sent(id: string) {
  const policy = { taxes: [], taxRounding: 'invoice' as const, supplies: null };
  const frozen = freezeRevision({
    about: {},
    lines: [{ ...pump, id, steps: pump.steps.map((step) => ({ ...step, step: id })) }],
    given: NOTHING_AGREED,
    policy,
    unseen: [UNSEEN],
  });
  if (!frozen.ok) throw new Error(frozen.fault.detail);
  return {
    document: frozen.value,
    commonSpreadPpm: ppm(0),
    agreed: new Map([[id, cents(20_000)]]),
  };
}

describe('how often what was said held', () => {
  it('is a share that names both its numbers, with an interval', () => {
    const share = heldShare(totals(14_000, 14_001, 9000, 12_000, 17_000), 80, 'orders');
    // Wilson, 3 of 5 at 95 percent: 0.2307 to 0.8824 (R. G. Newcombe's method 3, worked by hand).
    expect(share).toMatchObject({
      label: 'orders whose total stayed at or below their P80 ÷ orders',
      numerator: 3,
      denominator: 5,
      ppm: 600_000,
      expectedPpm: 800_000,
    });
    expect((share.intervalLowPpm ?? 0) / 1e6).toBeCloseTo(0.2307, 3);
    expect((share.intervalHighPpm ?? 0) / 1e6).toBeCloseTo(0.8824, 3);
    expect(heldShare(totals(12_001, 12_000), 50, 'orders').numerator).toBe(1);
    expect(heldShare(totals(17_000, 17_001), 95, 'orders').numerator).toBe(1);
  });

  it('says nothing of nothing', () => {
    expect(heldShare([], 80, 'orders')).toMatchObject({
      numerator: 0,
      denominator: 0,
      ppm: null,
      intervalLowPpm: null,
      intervalHighPpm: null,
    });
  });
});

describe('what the owner was told, drawn again', () => {
  const effort = { seed: 7, draws: 10_000 };

  it('counts a checkpoint that two revisions could not see once', () => {
    const one = rangeOfAgreed([sent('pump')], effort);
    const two = rangeOfAgreed([sent('pump'), sent('belt')], effort);
    // In three cases of ten 100.00 more: P50 is the price, P80 and P95 have it on top.
    expect(one).toMatchObject({
      ok: true,
      value: { p50Cents: 20_000, p80Cents: 30_000, p95Cents: 30_000 },
    });
    expect(two).toMatchObject({
      ok: true,
      value: { p50Cents: 40_000, p80Cents: 50_000, p95Cents: 50_000 },
    });
  });

  it('stands on what was agreed to, to the cent', () => {
    const odd = { ...sent('pump'), agreed: new Map([['pump', cents(20_001)]]) };
    expect(rangeOfAgreed([odd], effort)).toMatchObject({ ok: true, value: { p10Cents: 20_001 } });
  });

  it('is nothing where nothing was agreed to', () => {
    expect(rangeOfAgreed([], effort)).toEqual({ ok: true, value: null });
  });
});
