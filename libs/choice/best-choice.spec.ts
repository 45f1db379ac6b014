import { cents } from '#libs/kernel';
import { bestChoice } from './best-choice.js';
import type { BudgetProblem, ChoiceLine, Effort } from './choice-problem.js';
import { ladder } from './ladder.js';
import { seeded } from '#libs/chance';

const EFFORT: Effort = { timeLimitMs: 1000, now: () => 0, seed: 7 };

const line = (id: string, benefit: number, amount: number, more: Partial<ChoiceLine> = {}): ChoiceLine => ({
  id,
  benefit,
  cents: cents(amount),
  ...more,
});

/** A pump and a belt behind one cover; a lamp apart. Worked by hand. */
const ENGINE: BudgetProblem = {
  lines: [
    line('pump', 50, 12_000, { steps: ['cover'] }),
    line('belt', 40, 8000, { steps: ['cover'] }),
    line('lamp', 30, 3000),
  ],
  steps: [{ id: 'cover', cents: cents(10_000) }],
  budgetCents: cents(30_000),
};

const best = (problem: BudgetProblem) => {
  const choice = bestChoice(problem, EFFORT);
  if (!choice.ok) throw new Error(choice.fault.detail);
  return choice.value;
};

/** Lines that share as much as they can: no proof within a few nodes. */
function tangled(lines: number): BudgetProblem {
  const random = seeded(lines);
  const drawn = (most: number): number => Math.floor(random() * most);
  return {
    lines: Array.from({ length: lines }, (_, at) =>
      line(`line ${at}`, 20 + drawn(100), drawn(90), {
        steps: Array.from({ length: 12 }, () => `step ${drawn(90)}`),
      }),
    ),
    steps: Array.from({ length: 90 }, (_, at) => ({ id: `step ${at}`, cents: cents(10 + drawn(300)) })),
    budgetCents: cents(7000),
  };
}

describe('the best choice for a budget', () => {
  it('buys the shared cover once', () => {
    expect(best(ENGINE)).toMatchObject({
      chosen: ['pump', 'belt'],
      benefit: 90,
      priceCents: 30_000,
      proven: true,
    });
    expect(best({ ...ENGINE, budgetCents: cents(29_999) })).toMatchObject({
      chosen: ['pump', 'lamp'],
      benefit: 80,
      priceCents: 25_000,
    });
  });

  it('costs no more than it must for its benefit', () => {
    const lines = [line('dear', 10, 900), line('cheap', 10, 100), line('idle', 0, 50)];
    expect(best({ lines, budgetCents: cents(950) })).toMatchObject({ chosen: ['cheap'], priceCents: 100 });
  });

  it('takes what is approved already as paid for, and as done', () => {
    const lines = [
      ...ENGINE.lines,
      line('cap', 5, 100, { requires: ['belt'] }),
      line('other belt', 99, 1, { excludes: ['belt'] }),
    ];
    expect(best({ ...ENGINE, lines, given: ['belt'], budgetCents: cents(12_100) })).toMatchObject({
      chosen: ['pump', 'cap'],
      benefit: 55,
      priceCents: 12_100,
    });
  });

  it('leaves out what an approved line stands in for, listed or not, and what needs it', () => {
    const lines = [
      line('old hose', 9, 1, { excludes: ['new hose'] }),
      line('clamp', 9, 1, { requires: ['old hose'] }),
      line('lamp', 1, 1),
    ];
    expect(best({ lines, given: ['new hose'], budgetCents: cents(9) }).chosen).toEqual(['lamp']);
    expect(
      best({ lines: [...lines, line('new hose', 1, 1)], given: ['new hose'], budgetCents: cents(9) }).chosen,
    ).toEqual(['lamp']);
  });

  it('says what the least is when the budget does not make the car safe', () => {
    const lines = ENGINE.lines.map((one) => ({ ...one, mustInclude: one.id === 'belt' }));
    expect(bestChoice({ ...ENGINE, lines, budgetCents: cents(17_999) }, EFFORT)).toMatchObject({
      ok: false,
      fault: { code: 'must-include-too-dear', facts: { leastCents: 18_000 } },
    });
    expect(best({ ...ENGINE, lines, budgetCents: cents(18_000) }).chosen).toEqual(['belt']);
  });

  it('gives the best found and a bound on the rest when the time is up', () => {
    let asked = 0;
    const effort = { ...EFFORT, timeLimitMs: 3, now: () => asked++ };
    const cut = bestChoice(tangled(80), effort);
    if (!cut.ok) throw new Error(cut.fault.detail);
    expect(cut.value.proven).toBe(false);
    expect(cut.value.upperBound).toBeGreaterThan(cut.value.benefit);
    expect(cut.value.priceCents).toBeLessThanOrEqual(7000);
    asked = 0;
    expect(bestChoice(tangled(80), effort)).toEqual(cut);
  });

  it('the ladder goes from nothing to all, one rung for each change', () => {
    expect(ladder(ENGINE, EFFORT)).toEqual({
      ok: true,
      value: {
        proven: true,
        rungs: [
          { priceCents: 0, benefit: 0, chosen: [] },
          { priceCents: 3000, benefit: 30, chosen: ['lamp'] },
          { priceCents: 18_000, benefit: 40, chosen: ['belt'] },
          { priceCents: 21_000, benefit: 70, chosen: ['belt', 'lamp'] },
          { priceCents: 25_000, benefit: 80, chosen: ['pump', 'lamp'] },
          { priceCents: 30_000, benefit: 90, chosen: ['pump', 'belt'] },
          { priceCents: 33_000, benefit: 120, chosen: ['pump', 'belt', 'lamp'] },
        ],
      },
    });
  });
});

describe('a problem that makes no sense is refused', () => {
  it.each<[string, Partial<BudgetProblem>]>([
    ['line-listed-twice', { lines: [line('a', 1, 1), line('a', 1, 1)] }],
    ['line-unknown', { lines: [line('a', 1, 1, { requires: ['b'] })] }],
    ['line-unknown', { lines: [line('a', 1, 1, { excludes: ['b'] })] }],
    ['step-unknown', { lines: [line('a', 1, 1, { steps: ['lid'] })] }],
    ['step-listed-twice', { steps: [1, 2].map((amount) => ({ id: 'cover', cents: cents(amount) })) }],
    ['figure-invalid', { lines: [line('a', -1, 1)], steps: [] }],
    ['figure-invalid', { lines: [line('a', 0.5, 1)], steps: [] }],
    ['figure-invalid', { budgetCents: -1 as never }],
    [
      'must-include-conflict',
      {
        lines: [
          line('a', 1, 1, { mustInclude: true }),
          line('b', 1, 1, { mustInclude: true, excludes: ['a'] }),
        ],
      },
    ],
  ])('%s', (code, part) => {
    expect(bestChoice({ ...ENGINE, ...part }, EFFORT)).toMatchObject({ ok: false, fault: { code } });
  });
});
