import fc from 'fast-check';
import { bookHundredths } from '#libs/kernel';
import type { LabourStep } from '#libs/labour';
import { expandLine } from './expand-line.js';
import { expandPositions, STEP_PLACES } from './expand-positions.js';
import type { CatalogueOperation, StepPlace } from './expand-positions.js';
import { axlesOf, cornersOf, isPosition, POSITIONS } from './position.js';
import type { Position } from './position.js';

const operation = (id: string, ...steps: [string, StepPlace, number][]): CatalogueOperation => ({
  id,
  steps: steps.map(([step, at, hours]) => ({ step, at, hundredths: bookHundredths(hours) })),
});

const PADS = operation(
  'brake pads',
  ['wheel off and on', 'corner', 20],
  ['pads', 'corner', 30],
  ['pedal and level', 'axle', 10],
  ['road test', 'vehicle', 20],
);

const pairs = (steps: readonly LabourStep[]): string[] =>
  steps.map(({ step, position }) => `${step} @ ${position}`);

const expand = (ordered: CatalogueOperation, positions: readonly Position[]): string[] => {
  const result = expandPositions(ordered, positions);
  return result.ok ? pairs(result.value) : [result.fault.code];
};

const hours = (positions: readonly Position[]): number => {
  const result = expandPositions(PADS, positions);
  return result.ok ? result.value.reduce((sum, step) => sum + step.hundredths, 0) : Number.NaN;
};

const WITH_CORNERS = POSITIONS.filter((position) => cornersOf(position).length > 0);
const somePositions = fc.uniqueArray(fc.constantFrom(...WITH_CORNERS), { minLength: 1 });
const anOperation = fc
  .uniqueArray(
    fc.tuple(fc.constantFrom('a', 'b', 'c', 'd', 'e'), fc.constantFrom(...STEP_PLACES), fc.nat(300)),
    {
      selector: ([step]) => step,
      minLength: 1,
    },
  )
  .map((steps) => operation('any', ...steps));

describe('the positions of a vehicle', () => {
  it('puts each corner on one axle and one side, and places of their own on neither', () => {
    const table = POSITIONS.map((position) => [
      position,
      cornersOf(position).length,
      axlesOf(position).join('+'),
    ]);
    expect(table).toEqual([
      ['vehicle', 4, 'front+rear'],
      ['front', 2, 'front'],
      ['rear', 2, 'rear'],
      ['left', 2, 'front+rear'],
      ['right', 2, 'front+rear'],
      ['front-left', 1, 'front'],
      ['front-right', 1, 'front'],
      ['rear-left', 1, 'rear'],
      ['rear-right', 1, 'rear'],
      ['engine', 0, ''],
      ['underbody', 0, ''],
      ['interior', 0, ''],
    ]);
    expect(cornersOf('left')).toEqual(['front-left', 'rear-left']);
    expect(cornersOf('rear')).toEqual(['rear-left', 'rear-right']);
  });

  it('knows its own names only', () => {
    expect(POSITIONS.every(isPosition)).toBe(true);
    expect(['', 'Front', 'middle', 'front left'].some(isPosition)).toBe(false);
  });
});

describe('expanding an operation over positions', () => {
  it('takes one corner with its axle and the vehicle', () => {
    expect(expand(PADS, ['front-left'])).toEqual([
      'wheel off and on @ front-left',
      'pads @ front-left',
      'pedal and level @ front',
      'road test @ vehicle',
    ]);
  });

  it('pays the axle and the road test once for both corners, and twice the corner', () => {
    // By hand: a corner 0.50, the axle 0.10, the vehicle 0.20.
    expect(hours(['front-left'])).toBe(80);
    expect(hours(['front-left', 'front-right'])).toBe(130);
    expect(hours(['front'])).toBe(130);
    expect(hours(['front-left', 'rear-right'])).toBe(140);
    expect(hours(['vehicle'])).toBe(240);
    expect(hours(['left', 'right'])).toBe(240);
  });

  it('does a chosen step at the position as it was ordered', () => {
    const flush = operation('flush', ['flush', 'chosen', 50], ['road test', 'vehicle', 20]);
    expect(expand(flush, ['engine'])).toEqual(['flush @ engine', 'road test @ vehicle']);
    expect(expand(flush, ['front', 'front-left'])).toEqual([
      'flush @ front',
      'flush @ front-left',
      'road test @ vehicle',
    ]);
  });

  it('refuses to leave out a step that has no place there, an order without a place, and a step listed twice', () => {
    expect(expand(PADS, ['engine'])).toEqual(['position-unfit']);
    expect(expand(PADS, ['front-left', 'interior'])).toEqual(['position-unfit']);
    expect(expand(PADS, [])).toEqual(['position-missing']);
    expect(expand(operation('x', ['a', 'corner', 1], ['a', 'axle', 1]), ['front'])).toEqual([
      'step-listed-twice',
    ]);
  });

  it('gives the union of what each position gives by itself, in whatever order', () => {
    fc.assert(
      fc.property(anOperation, somePositions, (ordered, positions) => {
        const each = new Set(positions.flatMap((position) => expand(ordered, [position])));
        const all = expand(ordered, positions);
        expect([...all].sort()).toEqual([...each].sort());
        expect(new Set(all).size).toBe(all.length);
        expect(expand(ordered, [...positions].reverse())).toEqual(all);
        expect(expand(ordered, [...positions, ...positions])).toEqual(all);
      }),
      { numRuns: 2000 },
    );
  });

  it('gives for an axle, a side or the vehicle what its corners give together, chosen steps apart', () => {
    fc.assert(
      fc.property(anOperation, fc.constantFrom(...WITH_CORNERS), (any, position) => {
        const steps = any.steps.filter(({ at }) => at !== 'chosen');
        const ordered = { ...any, steps };
        expect(expand(ordered, [position])).toEqual(expand(ordered, cornersOf(position)));
      }),
      { numRuns: 1000 },
    );
  });
});

describe('the steps of a line', () => {
  const DISCS = operation('brake discs', ['wheel off and on', 'corner', 20], ['disc', 'corner', 25]);

  it('are the union of its operations', () => {
    const line = expandLine([
      { operation: PADS, positions: ['front-left'] },
      { operation: DISCS, positions: ['front-left'] },
      { operation: DISCS, positions: ['front-right'] },
    ]);
    expect(line.ok && pairs(line.value)).toEqual([
      'wheel off and on @ front-left',
      'pads @ front-left',
      'pedal and level @ front',
      'road test @ vehicle',
      'disc @ front-left',
      'wheel off and on @ front-right',
      'disc @ front-right',
    ]);
  });

  it('refuse two different hours for one step at one place', () => {
    const odd = operation('odd', ['wheel off and on', 'corner', 25]);
    const at = (positions: Position[]): ReturnType<typeof expandLine> =>
      expandLine([
        { operation: PADS, positions: ['front-left'] },
        { operation: odd, positions },
      ]);
    expect(at(['front-left'])).toMatchObject({ ok: false, fault: { code: 'step-hours-differ' } });
    expect(at(['rear-left']).ok).toBe(true);
    expect(expandLine([{ operation: PADS, positions: ['engine'] }])).toMatchObject({
      fault: { code: 'position-unfit' },
    });
    expect(expandLine([])).toEqual({ ok: true, value: [] });
  });
});
