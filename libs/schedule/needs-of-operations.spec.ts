import fc from 'fast-check';
import { needsOfOperations, type OperationNeeds } from './needs-of-operations.js';

const operation = (over: Partial<OperationNeeds> = {}): OperationNeeds => ({
  needsLift: false,
  bayKinds: [],
  skills: [],
  cautions: [],
  toolIds: [],
  ...over,
});

describe('what a line of several operations asks of the floor', () => {
  it('a line without operations asks for nothing in particular', () => {
    expect(needsOfOperations([])).toEqual(operation());
  });

  it('one operation on a lift puts the whole line on a lift, with every skill, tool and caution once', () => {
    expect(
      needsOfOperations([
        operation({ needsLift: true, skills: ['brakes'], cautions: ['lift-capacity'], toolIds: ['t2'] }),
        operation({ skills: ['brakes', 'alignment'], cautions: ['brake-dust'], toolIds: ['t1'] }),
      ]),
    ).toEqual({
      needsLift: true,
      bayKinds: [],
      skills: ['alignment', 'brakes'],
      cautions: ['brake-dust', 'lift-capacity'],
      toolIds: ['t1', 't2'],
    });
  });

  it('takes a bay that suits every operation; operations that take any bay do not widen it', () => {
    const kinds = (...lists: string[][]): readonly string[] =>
      needsOfOperations(lists.map((bayKinds) => operation({ bayKinds }))).bayKinds;
    expect(kinds(['lift', 'alignment'], ['alignment'])).toEqual(['alignment']);
    expect(kinds(['lift'], [])).toEqual(['lift']);
    expect(kinds(['flat'], ['alignment'])).toEqual(['alignment', 'flat']);
  });

  it('does not depend on the order of the operations', () => {
    const list = fc.uniqueArray(fc.constantFrom('a', 'b', 'c', 'd'));
    const any = fc.record({
      needsLift: fc.boolean(),
      bayKinds: list,
      skills: list,
      cautions: list,
      toolIds: list,
    });
    fc.assert(
      fc.property(fc.array(any, { maxLength: 6 }), (operations) => {
        expect(needsOfOperations([...operations].reverse())).toEqual(needsOfOperations(operations));
      }),
    );
  });
});
