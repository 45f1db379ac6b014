import { bookHundredths, type Result } from '#libs/kernel';
import fc from 'fast-check';
import { alone } from './alone.js';
import { exactShares } from './exact-shares.js';
import type { LabourOperation } from './labour-operation.js';
import { marginal } from './marginal.js';
import { shares } from './shares.js';
import { together } from './together.js';

const value = <T>(result: Result<T>): T => {
  if (!result.ok) throw new Error(result.fault.detail);
  return result.value;
};
const operation = (id: string, steps: Record<string, number>): LabourOperation => ({
  id,
  steps: Object.entries(steps).map(([step, hundredths]) => ({
    step,
    position: 'vehicle',
    hundredths: bookHundredths(hundredths),
  })),
});

/** A shop's catalogue: up to 7 operations over up to 9 steps at two positions, zero hours and repeats included. */
const catalogue = fc
  .array(fc.oneof(fc.constant(0), fc.nat(4), fc.nat(2000)), { minLength: 9, maxLength: 9 })
  .chain((hours) => {
    const pair = fc.record({ step: fc.nat(8), side: fc.constantFrom('left', 'right') });
    const steps = fc.array(pair, { maxLength: 8 }).map((pairs) =>
      pairs.map(({ step, side }) => ({
        step: `step ${step}`,
        position: side,
        // Left and right differ, to show that the position is part of the step.
        hundredths: bookHundredths((hours[step] ?? 0) + (side === 'left' ? 0 : 1)),
      })),
    );
    const id = fc.string({ minLength: 1, maxLength: 3, unit: 'grapheme' });
    return fc.uniqueArray(fc.record({ id, steps }), {
      selector: (given) => given.id,
      minLength: 1,
      maxLength: 7,
    });
  });
const runs = { numRuns: 2000 };

describe('overlapping labour, worked examples', () => {
  // Definition: shared dismantling is paid once (time values built from root operations: FenderBender, "It's all about
  // time"). Hours in tenths: pump job 1.9 h, belt job 1.8 h, tensioner job 1.2 h, 0.8 h of dismantling in each.
  const pump = operation('A', { drain: 20, 'belt off': 30, 'cover off': 50, pump: 60, refill: 30 });
  const belt = operation('B', { 'belt off': 30, 'cover off': 50, 'timing belt': 100 });
  const tensioner = operation('C', { 'belt off': 30, 'cover off': 50, tensioner: 40 });

  it('two jobs that share 0.8 h take 2.9 h, not 3.7 h, and each carries half of it', () => {
    expect(value(alone(pump)) + value(alone(belt))).toBe(370);
    expect(value(together([pump, belt]))).toBe(290);
    expect([...value(shares([pump, belt]))]).toEqual([
      ['A', 150],
      ['B', 140],
    ]);
  });

  it('three jobs that share the same 0.8 h take 3.3 h: taken off twice, not three times', () => {
    expect(value(together([pump, belt, tensioner]))).toBe(330);
    // A third of 80 is 26.67: 136.67, 126.67, 66.67. Two hundredths are left over; all remainders tie, so A and B get them.
    expect([...value(shares([tensioner, pump, belt]))]).toEqual([
      ['A', 137],
      ['B', 127],
      ['C', 66],
    ]);
  });

  it('adding a job costs the steps that nobody has taken yet', () => {
    expect(value(marginal(belt, [pump]))).toBe(100);
    expect(value(marginal(belt, []))).toBe(180);
    expect(value(marginal(belt, [pump, belt]))).toBe(0);
  });

  it('rounding never moves hours between lines that share nothing', () => {
    // One pool of remainders would hand the hundredth of {a, b, c} to {x, y}; a shared step of no hours makes no pool.
    const trio = ['a', 'b', 'c'].map((id) => operation(id, { rack: 1, nothing: 0 }));
    const pair = ['x', 'y'].map((id) => operation(id, { hood: 1, nothing: 0 }));
    const single = operation('solo', { nothing: 0, plug: 5 });
    const split = value(shares([...pair, single, ...trio]));
    expect(Object.fromEntries(split)).toEqual({ a: 1, b: 0, c: 0, x: 1, y: 0, solo: 5 });
  });

  it('ties go by code point, so that the order of characters is the same everywhere', () => {
    // U+FF5E comes before U+1F527 by code point, after it by UTF-16 unit.
    const split = value(shares([operation('\u{1f527}', { rack: 1 }), operation('\uff5e', { rack: 1 })]));
    expect(split.get('\uff5e')).toBe(1);
  });
});

describe('overlapping labour, laws', () => {
  it('a set of one takes what the operation takes alone', () => {
    fc.assert(
      fc.property(catalogue, ([first]) => {
        if (first === undefined) return;
        const distinct = new Map(
          first.steps.map((step) => [`${step.step}|${step.position}`, step.hundredths]),
        );
        const sum = [...distinct.values()].reduce<number>((added, hundredths) => added + hundredths, 0);
        expect(value(alone(first))).toBe(sum);
        expect(value(together([first]))).toBe(sum);
        expect(value(shares([first])).get(first.id)).toBe(sum);
      }),
      runs,
    );
  });

  it('more work never takes less time, nor more than the sum of the parts', () => {
    fc.assert(
      fc.property(catalogue, fc.nat(7), (operations, cut) => {
        const some = value(together(operations.slice(0, cut)));
        const all = value(together(operations));
        const single = operations.map((each) => value(alone(each)));
        expect(some).toBeLessThanOrEqual(all);
        expect(all).toBeGreaterThanOrEqual(Math.max(...single));
        expect(all).toBeLessThanOrEqual(single.reduce<number>((sum, hundredths) => sum + hundredths, 0));
      }),
      runs,
    );
  });

  it('adding a job costs no more the more is already being done', () => {
    fc.assert(
      fc.property(catalogue, fc.nat(7), fc.nat(7), (operations, a, b) => {
        const [added, ...others] = operations;
        if (added === undefined) return;
        const few = others.slice(0, Math.min(a, b));
        const many = others.slice(0, Math.max(a, b));
        const onFew = value(marginal(added, few));
        expect(value(marginal(added, many))).toBeLessThanOrEqual(onFew);
        expect(value(together([...few, added]))).toBe(value(together(few)) + onFew);
      }),
      runs,
    );
  });

  it('shares add up to the common hours, none is negative or above what the line takes alone', () => {
    fc.assert(
      fc.property(catalogue, (operations) => {
        const split = value(shares(operations));
        const sum = [...split.values()].reduce<number>((added, hundredths) => added + hundredths, 0);
        expect(sum).toBe(value(together(operations)));
        for (const each of operations) {
          const share = split.get(each.id) ?? Number.NaN;
          expect(share).toBeGreaterThanOrEqual(0);
          expect(share).toBeLessThanOrEqual(value(alone(each)));
        }
      }),
      runs,
    );
  });

  it('the order in which lines are chosen changes nothing', () => {
    const shuffled = catalogue.chain((operations) =>
      fc.tuple(
        fc.constant(operations),
        fc.shuffledSubarray(operations, { minLength: operations.length, maxLength: operations.length }),
      ),
    );
    fc.assert(
      fc.property(shuffled, ([operations, other]) => {
        const reversedSteps = other.map(({ id, steps }) => ({ id, steps: [...steps].reverse() }));
        expect([...value(shares(reversedSteps))]).toEqual([...value(shares(operations))]);
      }),
      runs,
    );
  });

  it('no group of lines pays more than it would take by itself', () => {
    fc.assert(
      fc.property(catalogue, (operations) => {
        const { numerators, denominator } = value(exactShares(operations));
        for (let mask = 1; mask < 2 ** operations.length; mask++) {
          const group = operations.filter((_, index) => Math.floor(mask / 2 ** index) % 2 === 1);
          const paid = group.reduce((sum, { id }) => sum + (numerators.get(id) ?? 0n), 0n);
          expect(paid <= BigInt(value(together(group))) * denominator).toBe(true);
        }
      }),
      { numRuns: 300 },
    );
  });

  it('the exact shares are the mean of what each line adds over all orders of arrival', () => {
    // The definition of the Shapley value (L. S. Shapley, 1953), by brute force over all permutations.
    fc.assert(
      fc.property(catalogue, (given) => {
        const operations = given.slice(0, 4);
        const orders = permutations(operations);
        const { numerators, denominator } = value(exactShares(operations));
        for (const each of operations) {
          const added = orders.reduce(
            (sum, order) => sum + value(marginal(each, order.slice(0, order.indexOf(each)))),
            0,
          );
          expect((numerators.get(each.id) ?? 0n) * BigInt(orders.length)).toBe(BigInt(added) * denominator);
        }
      }),
      { numRuns: 500 },
    );
  });
});

function permutations<T>(items: readonly T[]): T[][] {
  if (items.length === 0) return [[]];
  return items.flatMap((first, index) =>
    permutations(items.toSpliced(index, 1)).map((rest) => [first, ...rest]),
  );
}
