import fc from 'fast-check';
import { findCircle } from './find-circle.js';

describe('work orders that wait for each other', () => {
  it('a chain and a fork are no circle', () => {
    expect(findCircle(new Map())).toBeNull();
    expect(
      findCircle(
        new Map([
          ['c', ['b', 'a']],
          ['b', ['a']],
          ['a', []],
        ]),
      ),
    ).toBeNull();
  });

  it('names the circle in the order of waiting', () => {
    expect(
      findCircle(
        new Map([
          ['a', ['b']],
          ['b', ['c']],
          ['c', ['a']],
        ]),
      ),
    ).toEqual(['a', 'b', 'c', 'a']);
    expect(findCircle(new Map([['a', ['a']]]))).toEqual(['a', 'a']);
    expect(
      findCircle(
        new Map([
          ['d', ['a']],
          ['a', ['b']],
          ['b', ['a']],
        ]),
      ),
    ).toEqual(['a', 'b', 'a']);
  });

  it('finds none where everything waits only for lower numbers, and finds one once a lower waits for a higher', () => {
    const graph = fc.array(fc.tuple(fc.nat(9), fc.nat(9)), { maxLength: 20 });
    const table = (edges: readonly (readonly [number, number])[]): Map<string, string[]> => {
      const map = new Map<string, string[]>();
      for (const [from, to] of edges) map.set(String(from), [...(map.get(String(from)) ?? []), String(to)]);
      return map;
    };
    fc.assert(
      fc.property(graph, (pairs) => {
        const down = pairs.filter(([from, to]) => from > to);
        expect(findCircle(table(down))).toBeNull();
        for (const [from, to] of down) {
          const circle = findCircle(table([...down, [to, from]]));
          expect(circle?.at(0)).toBe(circle?.at(-1));
          expect(circle?.length).toBeGreaterThanOrEqual(3);
        }
      }),
    );
  });
});
