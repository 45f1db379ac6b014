import fc from 'fast-check';
import { cents } from '#libs/kernel';
import type { FoundRung } from './found-set.js';
import { worthwhileSteps } from './worthwhile-steps.js';

const rung = (price: number, benefit: number, chosen: string[]): FoundRung => ({
  priceCents: cents(price),
  benefit,
  chosen,
  added: [],
  dropped: [],
});

describe('the steps of a ladder that are worth telling', () => {
  it('leave out a rung that buys less for its money than going on would, and say what changes', () => {
    const steps = worthwhileSteps([
      rung(100, 1000, ['brakes']),
      rung(150, 1010, ['brakes', 'wiper']),
      rung(200, 1400, ['brakes', 'hose']),
      rung(250, 1450, ['brakes', 'hose', 'wiper']),
      rung(300, 1460, ['brakes', 'hose', 'seat']),
    ]);
    expect(steps.map(({ priceCents, added, dropped }) => [priceCents, added, dropped])).toEqual([
      [100, ['brakes'], []],
      [200, ['hose'], []],
      [250, ['wiper'], []],
      [300, ['seat'], ['wiper']],
    ]);
    expect(worthwhileSteps([])).toEqual([]);
  });

  it('are no more than asked for: those go first that bend it least', () => {
    const rungs = [
      rung(0, 0, []),
      rung(10, 100, ['a']),
      rung(20, 150, ['b']),
      rung(40, 248, ['a', 'b']),
      rung(90, 300, ['c']),
    ];
    expect(worthwhileSteps(rungs, 4).map(({ priceCents }) => priceCents)).toEqual([0, 10, 40, 90]);
    expect(worthwhileSteps(rungs, 1).map(({ priceCents, added }) => [priceCents, added])).toEqual([
      [0, []],
      [90, ['c']],
    ]);
  });

  it('keep both ends, and each step buys less for its money than the one before; what is left out lies below', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 1, max: 5000 }), fc.integer({ min: 1, max: 300 })), {
          minLength: 1,
          maxLength: 30,
        }),
        (rises) => {
          let [price, benefit] = [0, 0];
          const rungs = rises.map(([more, gain]) => rung((price += more), (benefit += gain), []));
          const steps = worthwhileSteps(rungs);
          expect([steps[0], steps.at(-1)]).toEqual([rungs[0], rungs.at(-1)]);
          const slopes = steps.slice(1).map((step, at) => {
            const before = steps[at] ?? step;
            return (step.benefit - before.benefit) / (step.priceCents - before.priceCents);
          });
          expect(slopes.every((slope, at) => at === 0 || slope < (slopes[at - 1] ?? 0))).toBe(true);
          for (const one of rungs) {
            const at = steps.findIndex(({ priceCents }) => priceCents >= one.priceCents);
            const [left, right] = [steps[at - 1] ?? steps[at], steps[at]];
            if (!left || !right || left === right) continue;
            const line = left.benefit + (slopes[at - 1] ?? 0) * (one.priceCents - left.priceCents);
            expect(one.benefit).toBeLessThanOrEqual(line + 1e-6);
          }
        },
      ),
    );
  });
});
