import { FIRST_WEIGHTS } from '#libs/choice';
import type { FrozenLine } from '#libs/estimate';
import { MAY_DRIVE_WORDS } from '../shown-words.js';
import { choiceOfFrozen } from './line-choice.js';

describe('what a line that was sent is worth', () => {
  // Only what the mapping reads; the rest of a frozen line does not matter here.
  const frozen = (over: Partial<FrozenLine>): FrozenLine =>
    ({ id: 'line', verdict: null, mayDrive: null, ...over }) as FrozenLine;

  it('is what was frozen with it', () => {
    const choice = {
      benefit: 7,
      why: 'So it was said.',
      mustInclude: true,
      requires: ['a'],
      excludes: ['b'],
    };
    expect(choiceOfFrozen(frozen({ choice }))).toBe(choice);
  });

  it('follows from the words of a document that was sent before benefits were kept', () => {
    const benefits = [
      frozen({ verdict: 'Unsafe', mayDrive: MAY_DRIVE_WORDS.no }),
      frozen({ verdict: 'Repair', mayDrive: MAY_DRIVE_WORDS['to-the-shop-only'] }),
      frozen({ verdict: 'Repair', mayDrive: MAY_DRIVE_WORDS.yes }),
      frozen({ verdict: 'Watch', mayDrive: MAY_DRIVE_WORDS.yes }),
      frozen({}),
    ].map((line) => choiceOfFrozen(line));
    expect(benefits.map(({ benefit }) => benefit)).toEqual([
      FIRST_WEIGHTS.unsafe,
      FIRST_WEIGHTS.toTheShopOnly,
      FIRST_WEIGHTS.repair,
      FIRST_WEIGHTS.watch,
      FIRST_WEIGHTS.asked,
    ]);
    expect(benefits.map(({ mustInclude }) => mustInclude)).toEqual([true, false, false, false, false]);
  });
});
