import { bestChoice } from '#libs/choice';
import { programText } from './integer-program.js';
import { isSetUnionKnapsack, readSetUnionKnapsack } from './published.js';
import { flawIn } from './report.js';
import { shopLike } from './shop-like.js';

const EFFORT = { timeLimitMs: 1, now: () => 0, seed: 1 };

/** Three items over four elements, made up and worked by hand: the first two fit together because they share. */
const TINY = `
m=3   n=4   knapsack size=9

The profit of 3 items
5 4 6

The weight of 4 elements
3 4 2 8

Relation matrix
1 1 0 0
0 1 1 0
0 0 0 1
`;

describe('the bench of the budget choice', () => {
  it('draws the same shop for a seed, with about two steps a line and every kind of tie', () => {
    const all = Array.from({ length: 20 }, (_, seed) => shopLike(60, seed));
    expect(shopLike(60, 3)).toEqual(all[3]);
    expect(all[4]).not.toEqual(all[3]);
    for (const { lines, steps = [], budgetCents } of all) {
      expect(lines).toHaveLength(60);
      expect(steps.length).toBeGreaterThan(90);
      expect(steps.length).toBeLessThan(150);
      expect(budgetCents).toBeGreaterThan(0);
    }
    const lines = all.flatMap((problem) => problem.lines);
    for (const tie of ['requires', 'excludes'] as const)
      expect(lines.filter((line) => (line[tie] ?? []).length > 0).length).toBeGreaterThan(20);
    expect(lines.filter((line) => line.mustInclude === true).length).toBeGreaterThan(10);
  });

  it('reads the published layout', () => {
    expect(isSetUnionKnapsack(TINY)).toBe(true);
    expect(isSetUnionKnapsack('jobs 3\n1 2 3')).toBe(false);
    const problem = readSetUnionKnapsack(TINY);
    expect(bestChoice(problem, EFFORT)).toMatchObject({
      ok: true,
      value: { chosen: ['item 1', 'item 2'], benefit: 9, priceCents: 9, proven: true },
    });
    expect(() => readSetUnionKnapsack(TINY.replace('0 0 0 1', '0 0 0'))).toThrow('18 numbers instead of 19');
  });

  it('writes every tie into the integer program', () => {
    const text = programText({
      ...readSetUnionKnapsack(TINY),
      lines: [
        { id: 'a', benefit: 5, steps: ['element 1'], mustInclude: true },
        { id: 'b', benefit: 4, requires: ['a'], excludes: ['c'] },
        { id: 'c', benefit: 3 },
      ],
    });
    for (const row of [
      'x0 - y0 <= 0',
      'x0 >= 1',
      'x1 - x0 <= 0',
      'x1 + x2 <= 1',
      '0 x0 + 0 x1 + 0 x2 + 3 y0 <= 9',
    ])
      expect(text).toContain(`: ${row}\n`);
  });

  it('finds what is wrong with an answer', () => {
    const problem = readSetUnionKnapsack(TINY);
    const best = bestChoice(problem, EFFORT);
    if (!best.ok) throw new Error(best.fault.detail);
    expect(flawIn(problem, best.value)).toBeNull();
    expect(flawIn(problem, { ...best.value, benefit: 10 })).toBe('says benefit 10, has 9');
    expect(flawIn({ ...problem, budgetCents: 8 as never }, best.value)).toBe('costs 9, more than 8');
    expect(flawIn(problem, { ...best.value, chosen: ['item 1'] })).toBe('says 9, costs 7');
  });
});
