import { checkObservation } from './check-observation.js';
import type { Observation } from './observation.js';
import { MAY_DRIVE, VERDICTS } from './verdict.js';

const TREAD = { readingUnits: ['mm', 'in/32'] as const };
const LOOKED_AT = { readingUnits: [] };

const observed = (over: Partial<Observation>): Observation => ({
  checkpointId: 'tread-front-left',
  verdict: 'sound',
  mayDrive: null,
  unseenReason: null,
  lookAgainOn: null,
  lookAgainOdometer: null,
  readings: [],
  note: null,
  ...over,
});

const pointers = (
  over: Partial<Observation>,
  checkpoint: Parameters<typeof checkObservation>[1] = TREAD,
): string[] => {
  const result = checkObservation(observed(over), checkpoint);
  return result.ok ? [] : (result.fault.fields ?? []).map((field) => field.pointer);
};

describe('what an observation must say', () => {
  it('asks why a part was not seen', () => {
    expect(pointers({ verdict: 'unseen' })).toEqual(['/unseenReason']);
    expect(pointers({ verdict: 'unseen', unseenReason: '  ' })).toEqual(['/unseenReason']);
    expect(pointers({ verdict: 'unseen', unseenReason: 'Undertray bolts seized' })).toEqual([]);
  });

  it('asks for a repair whether the car may be driven', () => {
    expect(pointers({ verdict: 'repair' })).toEqual(['/mayDrive']);
    for (const mayDrive of MAY_DRIVE) expect(pointers({ verdict: 'repair', mayDrive })).toEqual([]);
  });

  it('asks for a watched part when to look again, by date or odometer', () => {
    expect(pointers({ verdict: 'watch' })).toEqual(['/mayDrive', '/lookAgainOn']);
    expect(pointers({ verdict: 'watch', mayDrive: 'yes', lookAgainOn: '2031-11-01' })).toEqual([]);
    expect(pointers({ verdict: 'watch', mayDrive: 'yes', lookAgainOdometer: 152_000 })).toEqual([]);
    expect(pointers({ verdict: 'watch', mayDrive: 'yes', lookAgainOdometer: -1 })).toEqual([
      '/lookAgainOdometer',
    ]);
  });

  it('does not leave and watch a part that forbids driving', () => {
    expect(pointers({ verdict: 'watch', mayDrive: 'no', lookAgainOn: '2031-11-01' })).toEqual(['/mayDrive']);
  });

  it('lets neither a sound nor an unseen part forbid driving', () => {
    for (const verdict of ['sound', 'unseen'] as const) {
      const over = { verdict, unseenReason: 'covered' };
      expect(pointers({ ...over, mayDrive: null })).toEqual([]);
      expect(pointers({ ...over, mayDrive: 'yes' })).toEqual([]);
      expect(pointers({ ...over, mayDrive: 'to-the-shop-only' })).toEqual(['/mayDrive']);
      expect(pointers({ ...over, mayDrive: 'no' })).toEqual(['/mayDrive']);
    }
  });

  it('takes readings as numbers in the units of the checkpoint', () => {
    const reading = { measure: 'outer groove', value: '4.5', unit: 'mm' } as const;
    expect(pointers({ readings: [reading] })).toEqual([]);
    expect(pointers({ readings: [reading, { ...reading, value: 'four' }] })).toEqual(['/readings/1/value']);
    expect(pointers({ readings: [{ ...reading, unit: 'kPa' }] })).toEqual(['/readings/0/unit']);
    expect(pointers({ readings: [reading] }, LOOKED_AT)).toEqual(['/readings/0/unit']);
    expect(pointers({ verdict: 'unseen', unseenReason: 'covered', readings: [reading] })).toEqual([
      '/readings',
    ]);
  });

  it('names every fault at once', () => {
    const readings = [{ measure: 'x', value: 'x', unit: 'V' as const }];
    expect(pointers({ verdict: 'watch', readings })).toEqual([
      '/mayDrive',
      '/lookAgainOn',
      '/readings/0/value',
      '/readings/0/unit',
    ]);
  });

  it('returns a good observation as it came', () => {
    for (const verdict of VERDICTS) {
      const good = observed({ verdict, mayDrive: 'yes', unseenReason: 'covered', lookAgainOn: '2031-11-01' });
      const result = checkObservation(good, TREAD);
      expect(result).toEqual({ ok: true, value: good });
    }
  });
});
