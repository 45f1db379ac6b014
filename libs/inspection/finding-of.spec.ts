import { completeness } from './completeness.js';
import { findingOf } from './finding-of.js';
import type { Observation } from './observation.js';
import { MAY_DRIVE, VERDICTS } from './verdict.js';
import { verdictWord } from './verdict-word.js';
import { worstWord } from './worst-word.js';

const observed = (over: Partial<Observation>): Observation => ({
  checkpointId: 'c1',
  verdict: 'repair',
  mayDrive: 'yes',
  unseenReason: null,
  lookAgainOn: null,
  lookAgainOdometer: null,
  readings: [],
  note: 'outer joint',
  ...over,
});

describe('the word for a verdict', () => {
  it('is one of five, and Unsafe only for a repair that forbids driving', () => {
    const words = VERDICTS.map((verdict) =>
      [...MAY_DRIVE, null].map((mayDrive) => verdictWord({ verdict, mayDrive })),
    );
    expect(words).toEqual([
      ['Sound', 'Sound', 'Sound', 'Sound'],
      ['Watch', 'Watch', 'Watch', 'Watch'],
      ['Repair', 'Repair', 'Unsafe', 'Repair'],
      ['Not seen', 'Not seen', 'Not seen', 'Not seen'],
    ]);
  });
});

describe('the gravest of several words', () => {
  it('is Unsafe before Repair, and what was not seen before what is sound', () => {
    expect(worstWord(['Sound', 'Repair', 'Unsafe', 'Watch'])).toBe('Unsafe');
    expect(worstWord(['Watch', 'Repair'])).toBe('Repair');
    expect(worstWord(['Not seen', 'Watch'])).toBe('Watch');
    expect(worstWord(['Sound', 'Not seen'])).toBe('Not seen');
    expect(worstWord([])).toBeNull();
  });
});

describe('the finding in an observation', () => {
  it('is there for watch and repair and nothing else', () => {
    expect(VERDICTS.map((verdict) => findingOf(observed({ verdict })) !== null)).toEqual([
      false,
      true,
      true,
      false,
    ]);
  });

  it('carries the word, the driving fact and when to look again', () => {
    expect(findingOf(observed({ mayDrive: 'no', lookAgainOdometer: 150_000 }))).toEqual({
      checkpointId: 'c1',
      verdict: 'repair',
      word: 'Unsafe',
      mayDrive: 'no',
      lookAgainOn: null,
      lookAgainOdometer: 150_000,
      note: 'outer joint',
    });
  });

  it('never reads silence about driving as a yes', () => {
    expect(findingOf(observed({ mayDrive: null }))?.mayDrive).toBe('to-the-shop-only');
  });
});

describe('how far the walk has come', () => {
  const walk = ['a', 'b', 'c', 'd'].map((id) => ({ id }));

  it('names what is missing in walking order', () => {
    const seen = [
      { checkpointId: 'd' },
      { checkpointId: 'b' },
      { checkpointId: 'b' },
      { checkpointId: 'other' },
    ];
    expect(completeness(walk, seen)).toEqual({ total: 4, seen: 2, missing: ['a', 'c'], isComplete: false });
  });

  it('is complete when every checkpoint was observed, and for an empty walk', () => {
    expect(
      completeness(
        walk,
        walk.map(({ id }) => ({ checkpointId: id })),
      ),
    ).toMatchObject({ isComplete: true });
    expect(completeness([], [])).toEqual({ total: 0, seen: 0, missing: [], isComplete: true });
  });
});
