import fc from 'fast-check';
import { checkTogether, notTogether } from './check-together.js';
import type { RelatedLine } from './check-together.js';

const line = (id: string, requires: string[] = [], excludes: string[] = []): RelatedLine => ({
  id,
  title: `Line ${id}`,
  requires,
  excludes,
});
const NONE = new Set<string>();

describe('what an owner approves can be done together', () => {
  const lines = [line('discs', ['pads']), line('pads'), line('new', [], ['used']), line('used')];

  it.each([
    [['discs', 'pads', 'new'], NONE, []],
    [['discs'], NONE, ['requires discs pads']],
    [['pads'], NONE, []],
    [['used', 'new'], NONE, ['excludes new used']],
    [['discs'], new Set(['pads']), []],
    [['used'], new Set(['new']), ['excludes new used']],
    [[], new Set(['new', 'used', 'discs']), []],
  ])('%j with %j begun', (chosen, begun, wrong) => {
    const found = notTogether({ lines, chosen, begun });
    expect(found.map(({ kind, lineId, otherId }) => `${kind} ${lineId} ${otherId}`)).toEqual(wrong);
    expect(checkTogether({ lines, chosen, begun }).ok).toBe(wrong.length === 0);
  });

  it('names both lines and the remedy', () => {
    const refused = checkTogether({ lines, chosen: ['discs', 'new', 'used'], begun: NONE });
    expect(refused).toMatchObject({
      ok: false,
      fault: {
        code: 'lines-not-together',
        detail:
          '"Line discs" is done only together with "Line pads": approve both or neither. "Line new" and "Line used" stand in for each other: approve one of them only. Nothing was recorded.',
      },
    });
  });

  it('finds something exactly where a look at every pair does, in any order of the lines', () => {
    const ids = ['a', 'b', 'c', 'd', 'e'];
    const some = fc.subarray(ids);
    fc.assert(
      fc.property(
        fc.tuple(...ids.map(() => fc.tuple(some, some))),
        some,
        fc.func(fc.integer()),
        (related, chosen, rank) => {
          const all = ids.map((id, at) => {
            const [requires = [], excludes = []] = related[at] ?? [];
            const others = (names: string[]): string[] => names.filter((name) => name !== id);
            return line(id, others(requires), others(excludes));
          });
          const isWrong = all.some(
            (one) =>
              chosen.includes(one.id) &&
              (one.requires.some((id) => !chosen.includes(id)) ||
                one.excludes.some((id) => chosen.includes(id))),
          );
          const mixed = [...all].sort((one, other) => rank(one.id) - rank(other.id));
          expect(checkTogether({ lines: mixed, chosen, begun: NONE }).ok).toBe(!isWrong);
        },
      ),
      { numRuns: 2000 },
    );
  });
});
