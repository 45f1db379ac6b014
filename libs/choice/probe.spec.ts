import fc from 'fast-check';
import { cents } from '#libs/kernel';
import type { ChoiceProblem } from './choice-problem.js';
import { CutBound } from './cut-bound.js';
import { networkOf } from './network.js';
import { PartialChoice } from './partial-choice.js';
import { plainPrices, valueOf } from './plain-prices.js';
import { Probe } from './probe.js';
import { shapeOf } from './shape.js';

const STEPS = 6;

const problemOf = (
  lines: readonly { benefit: number; own: number; uses: readonly number[] }[],
  amounts: readonly number[],
): ChoiceProblem => ({
  lines: lines.map(({ benefit, own, uses }, at) => ({
    id: `line ${at}`,
    benefit,
    cents: cents(own),
    steps: uses.map((step) => `step ${step}`),
    excludes: at % 4 === 3 ? [`line ${at - 1}`] : [],
    requires: at % 5 === 4 ? [`line ${at - 2}`] : [],
  })),
  steps: amounts.map((amount, at) => ({ id: `step ${at}`, cents: cents(amount) })),
});

function searched(problem: ChoiceProblem) {
  const shape = shapeOf(problem);
  if (!shape.ok) throw new Error(shape.fault.detail);
  const [lower] = plainPrices(problem.lines, problem.steps ?? []).lowers;
  if (lower === undefined) throw new Error('no price');
  const partial = new PartialChoice(shape.value, networkOf(lower, shape.value));
  const cut = new CutBound(partial);
  return { shape: shape.value, lower, partial, cut, probe: new Probe(partial, cut) };
}

/** The most benefit within a limit of sets that hold all of `held` and none of `without`, straight from the words. */
function mostWith(
  problem: ChoiceProblem,
  held: readonly number[],
  without: readonly number[],
  limit: number,
): number {
  const { lower } = searched(problem);
  let most = -1;
  for (let bits = 0; bits < 2 ** problem.lines.length; bits++) {
    const chosen = problem.lines.flatMap((_, at) => ((bits >> at) & 1 ? [at] : []));
    if (!held.every((at) => chosen.includes(at)) || without.some((at) => chosen.includes(at))) continue;
    const ids = chosen.map((at) => `line ${at}`);
    const isAllowed = chosen.every((at) => {
      const { requires = [], excludes = [] } = problem.lines[at] ?? {};
      return requires.every((id) => ids.includes(id)) && !excludes.some((id) => ids.includes(id));
    });
    if (!isAllowed || valueOf(lower, chosen) > limit) continue;
    most = Math.max(
      most,
      chosen.reduce((sum, at) => sum + (problem.lines[at]?.benefit ?? 0), 0),
    );
  }
  return most;
}

describe('what one more line would leave within reach', () => {
  const aLine = fc.record({
    benefit: fc.nat(100),
    own: fc.oneof(fc.constant(0), fc.nat(200)),
    uses: fc.uniqueArray(fc.nat(STEPS - 1), { maxLength: 4 }),
  });

  it('is never less than the best set with that line', () => {
    fc.assert(
      fc.property(
        fc.array(aLine, { minLength: 4, maxLength: 8 }),
        fc.array(fc.nat(300), { minLength: STEPS, maxLength: STEPS }),
        fc.nat(1200),
        fc.double({ min: 0.01, max: 2, noNaN: true }),
        fc.nat(7),
        (lines, amounts, limit, lambda, first) => {
          const problem = problemOf(lines, amounts);
          const { partial, cut, probe } = searched(problem);
          cut.at(lambda, limit);
          // As in the search: lines may be settled between the flow and the probe.
          if (first < lines.length && !partial.include(first)) return;
          probe.ready();
          const held = [...partial.state.keys()].filter((at) => partial.state[at] === 1);
          const without = [...partial.state.keys()].filter((at) => partial.state[at] === 2);
          for (const at of lines.keys()) {
            if (partial.state[at] !== 0) continue;
            const most = mostWith(problem, [...held, at], without, limit);
            expect(probe.with(at, limit)).toBeGreaterThanOrEqual(most - 1e-6);
          }
        },
      ),
      { numRuns: 500 },
    );
  });

  it('sees that nobody can pay for two lines together, which the flow does not', () => {
    const lines = [
      { benefit: 10, own: 0, uses: [0, 1] },
      { benefit: 10, own: 0, uses: [1, 2] },
    ];
    const { cut, probe } = searched(problemOf(lines, [100, 100, 100, 0, 0, 0]));
    expect(cut.at(20 / 300, 250)).toBeGreaterThan(16);
    probe.ready();
    expect(probe.with(0, 250)).toBe(10);
    expect(probe.with(1, 300)).toBe(20);
  });
});
