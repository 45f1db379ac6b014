import fc from 'fast-check';
import { bookHundredths, cents, ppm } from '#libs/kernel';
import { agreedFrom } from './agreed-from.js';
import type { AgreedLine } from './agreed-from.js';
import { NOTHING_AGREED } from './already-agreed.js';
import type { AlreadyAgreed } from './already-agreed.js';
import { carriedSteps } from './carried-steps.js';
import type { EstimateLine } from './estimate-line.js';
import { packageRange, packageSteps } from './package-hours.js';
import { pairKey } from './pair-key.js';
import { priceChoice } from './price-choice.js';
import type { PricingPolicy } from './pricing-policy.js';

const POLICY: PricingPolicy = {
  taxes: [{ name: 'sales tax', ratePpm: ppm(72_500), on: ['part', 'supplies'] }],
  taxRounding: 'invoice',
  supplies: { ratePpm: ppm(60_000), floorCents: cents(0), capCents: cents(3500) },
};

const line = (id: string, steps: Record<string, number>): EstimateLine => ({
  id,
  steps: Object.entries(steps).map(([step, hours]) => ({
    step,
    position: 'front',
    hundredths: bookHundredths(hours),
  })),
  rateId: 'general',
  rateCentsPerHour: cents(12950),
  items: [],
});

/** Prices a choice and returns its lines the way decisions keep them. */
function approve(
  lines: readonly EstimateLine[],
  chosen: readonly string[],
  given: AlreadyAgreed,
): Map<string, AgreedLine & { readonly totalCents: number; readonly hundredths: number }> {
  const price = priceChoice({ lines, chosen, given, policy: POLICY });
  if (!price.ok) throw new Error(price.fault.detail);
  const carried = carriedSteps(lines, chosen, given);
  return new Map(
    price.value.lines.flatMap((one) =>
      one.chosen ? [[one.id, { ...one, steps: carried.get(one.id) ?? [] }] as const] : [],
    ),
  );
}

const pads = line('pads', { 'wheel off': 40, pads: 80 });
const strut = line('strut', { 'wheel off': 40, strut: 150 });
const hose = line('hose', { 'wheel off': 40, hose: 50 });

describe('what is agreed to already', () => {
  it('is a shared step in full while all who share it stand', () => {
    const agreed = approve([pads, strut], ['pads', 'strut'], NOTHING_AGREED);
    // By hand: the wheel comes off once, 0.40 h, half for each.
    expect(agreed.get('pads')?.steps).toEqual([
      { step: 'wheel off', position: 'front', hundredths: 40, sharedBy: 2 },
      { step: 'pads', position: 'front', hundredths: 80, sharedBy: 1 },
    ]);
    const given = agreedFrom([...agreed.values()]);
    expect(given.steps.find(({ step }) => step === 'wheel off')?.hundredths).toBe(40);
    expect(approve([hose], ['hose'], given).get('hose')?.hundredths).toBe(50);
  });

  it('leaves the other half open once one of the two was given up', () => {
    const agreed = approve([pads, strut], ['pads', 'strut'], NOTHING_AGREED);
    const begun = agreedFrom([agreed.get('pads') as AgreedLine]);
    // The pads paid 0.20 h of the wheel. The hose pays the other 0.20 h and its own 0.50 h.
    expect(approve([hose], ['hose'], begun).get('hose')?.hundredths).toBe(70);
    // And the strut, chosen again, costs what it did: 0.20 + 1.50 h.
    expect(approve([strut], ['strut'], begun).get('strut')?.hundredths).toBe(agreed.get('strut')?.hundredths);
  });

  it('is not paid for by a line that found the step agreed to', () => {
    const first = approve([pads], ['pads'], NOTHING_AGREED);
    const second = approve([hose], ['hose'], agreedFrom([...first.values()]));
    // The pads are given up: what the hose has agreed to is its own step only, so that a later line pays for the wheel.
    const given = agreedFrom([...second.values()]);
    expect(approve([strut], ['strut'], given).get('strut')?.hundredths).toBe(190);
  });

  it('sells every hour exactly once, in whatever order lines are fixed and others are priced anew', () => {
    const hours = fc.array(fc.integer({ min: 1, max: 90 }), { minLength: 5, maxLength: 5 });
    const uses = fc.array(fc.subarray([0, 1, 2, 3, 4], { minLength: 1 }), { minLength: 2, maxLength: 5 });
    fc.assert(
      fc.property(hours, uses, fc.infiniteStream(fc.boolean()), (perStep, used, coin) => {
        const lines = used.map((steps, at) =>
          line(`line ${at}`, Object.fromEntries(steps.map((step) => [`step ${step}`, perStep[step] ?? 0]))),
        );
        const ids = lines.map(({ id }) => id);
        const all = approve(lines, ids, NOTHING_AGREED);
        const fixed = ids.filter(() => coin.next().value === true);
        const open = ids.filter((id) => !fixed.includes(id));
        const given = agreedFrom(fixed.map((id) => all.get(id) as AgreedLine));
        const again = approve(lines, open, given);
        const union = new Map(lines.flatMap(({ steps }) => steps.map((s) => [pairKey(s), s.hundredths])));
        const whole = [...union.values()].reduce((sum: number, one) => sum + one, 0);
        const sold = [
          ...fixed.map((id) => all.get(id)?.hundredths ?? 0),
          ...open.map((id) => again.get(id)?.hundredths ?? 0),
        ].reduce((sum, one) => sum + one, 0);
        // A part of a hundredth for each step and line goes to the owner, never to the shop by more than rounding.
        expect(Math.abs(sold - whole)).toBeLessThanOrEqual(union.size + lines.length);
        if (fixed.length === 0) expect(sold).toBe(whole);
      }),
      { numRuns: 1000 },
    );
  });

  it('leaves the price of the others alone when some lines of a package are fixed, but for hundredths', () => {
    const own = fc.array(fc.integer({ min: 0, max: 200 }), { minLength: 4, maxLength: 4 });
    const uses = fc.array(fc.subarray([0, 1, 2]), { minLength: 4, maxLength: 4 });
    fc.assert(
      fc.property(own, uses, fc.nat(100), fc.subarray([0, 1, 2]), (hours, used, at, fixed) => {
        const lines = used.map((steps, index) =>
          line(`line ${index}`, {
            ...Object.fromEntries(steps.map((step) => [`step ${step}`, 50 + step])),
            [`own ${index}`]: hours[index] ?? 0,
          }),
        );
        // Three of them in a package, the fourth free to share their steps or not.
        const members = lines.slice(0, 3);
        const { low, high } = packageRange(members);
        const hundredths = bookHundredths(low + Math.floor(((high - low) * at) / 100));
        const lineIds = members.map(({ id }) => id);
        const packages = [{ name: 'three', lineIds, hundredths, steps: packageSteps(members, hundredths) }];
        const price = (open: readonly EstimateLine[], chosen: readonly string[], given: AlreadyAgreed) => {
          const priced = priceChoice({ lines: open, chosen, given, policy: POLICY, packages });
          if (!priced.ok) throw new Error(priced.fault.detail);
          return priced.value.lines;
        };
        const ids = lines.map(({ id }) => id);
        const all = price(lines, ids, NOTHING_AGREED);
        const carried = carriedSteps(lines, ids, NOTHING_AGREED, packages);
        const begun = fixed.map((index) => `line ${index}`);
        const given = agreedFrom(
          all.flatMap((one) =>
            one.chosen && begun.includes(one.id) ? [{ ...one, steps: carried.get(one.id) ?? [] }] : [],
          ),
        );
        const open = lines.filter(({ id }) => !begun.includes(id));
        const rest = price(
          open,
          open.map(({ id }) => id),
          given,
        );
        for (const one of rest) {
          const before = all.find(({ id }) => id === one.id);
          if (!one.chosen || before?.chosen !== true) throw new Error('all are chosen');
          // A part of a hundredth for each of its steps, and for the share that it had.
          expect(Math.abs(one.hundredths - before.hundredths)).toBeLessThanOrEqual(5);
        }
        // Hours are never sold again: what is sold in all is no more than at once, rounding apart.
        const sum = (some: typeof all): number =>
          some.reduce((total, one) => total + (one.chosen ? one.hundredths : 0), 0);
        const fixedHours = sum(all.filter(({ id }) => begun.includes(id)));
        expect(sum(rest) + fixedHours).toBeLessThanOrEqual(sum(all) + open.length + begun.length);
      }),
      { numRuns: 1000 },
    );
  });
});
