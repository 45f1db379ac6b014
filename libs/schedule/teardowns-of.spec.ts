import fc from 'fast-check';
import { teardownsOf } from './teardowns-of.js';

const of = (...shared: string[]): Record<string, string> =>
  Object.fromEntries(teardownsOf(shared.map((work) => ({ work: [...work] }))));

describe('which work of a car is one teardown', () => {
  it('is work that shares a step, by its smallest id', () => {
    expect(of('cb')).toEqual({ b: 'b', c: 'b' });
    expect(of('ab', 'de')).toEqual({ a: 'a', b: 'a', d: 'd', e: 'd' });
  });

  it('is also work that shares nothing with the first, but something with what shares with it', () => {
    expect(of('cd', 'ab', 'bc')).toEqual({ a: 'a', b: 'a', c: 'a', d: 'a' });
  });

  it('is not work that has a step to itself, nor one whose own operations share a step', () => {
    expect(of('a', 'bb')).toEqual({});
    expect(of()).toEqual({});
  });

  it('puts exactly those together that are connected, in whatever order the steps are told', () => {
    const work = fc.constantFrom('a', 'b', 'c', 'd', 'e', 'f', 'g');
    const steps = fc.array(fc.array(work, { minLength: 1, maxLength: 3 }), { maxLength: 8 });
    fc.assert(
      fc.property(steps, (lists) => {
        const found = teardownsOf(lists.map((list) => ({ work: list })));
        // Reached step by step, the slow way.
        const reach = (from: string): string[] => {
          const seen = new Set([from]);
          for (let size = 0; size !== seen.size;) {
            size = seen.size;
            for (const list of lists) if (list.some((id) => seen.has(id))) list.forEach((id) => seen.add(id));
          }
          return [...seen].sort();
        };
        for (const id of 'abcdefg') {
          const group = reach(id);
          expect(found.get(id)).toBe(group.length > 1 ? group[0] : undefined);
        }
        expect([...teardownsOf([...lists].reverse().map((list) => ({ work: list })))].sort()).toEqual(
          [...found].sort(),
        );
      }),
      { numRuns: 1000 },
    );
  });
});
