import { adviceOn, FIGURES } from './index.js';
import type { Advice, Figures, FloorChange } from './index.js';

const base: Figures = {
  ...{ lateHoursPerWeek: 100, keptPercent: 80, readyPerWeek: 20, stayHours: 30, openAtEnd: 4, turnedAway: 0 },
  ...{ liftWorkHoursPerWeek: 60, liftBlockedHoursPerWeek: 10, liftIdleHoursPerWeek: 50 },
  ...{ technicianHoursPerWeek: 90, technicianUsedPercent: 92 },
};
const bay: FloorChange = { kind: 'bay', like: 'b' };
const technician: FloorChange = { kind: 'technician', like: 't' };

type Given = Partial<Record<keyof Figures, readonly [lo: number, mean: number, hi: number]>>;

function codes(changes: readonly FloorChange[], given: Given, of = base): Advice['code'][] {
  const differences = Object.fromEntries(
    FIGURES.map((figure) => {
      const [lo, mean, hi] = given[figure] ?? [0, 0, 0];
      return [figure, { mean, bounds: { lo, hi } }];
    }),
  ) as unknown as Parameters<typeof adviceOn>[2];
  return adviceOn(changes, of, differences).map(({ code }) => code);
}

describe('what is said beside the figures', () => {
  it('is nothing where there is a sure difference to what a manager comes for', () => {
    expect(codes([bay], { lateHoursPerWeek: [-30, -20, -10] })).toEqual([]);
    expect(codes([bay], { readyPerWeek: [0.1, 0.5, 0.9] })).toEqual([]);
  });

  it('names what is scarcer where a bay or a technician alone changes nothing', () => {
    const onlyIdle = { liftIdleHoursPerWeek: [30, 32, 34] } as const;
    expect(codes([bay], onlyIdle)).toEqual(['changes-nothing', 'technicians-scarcer']);
    expect(codes([bay, technician], onlyIdle)).toEqual(['changes-nothing']);
    const fewLifts = { ...base, liftIdleHoursPerWeek: 1, technicianUsedPercent: 60 };
    expect(codes([technician], {}, fewLifts)).toEqual(['changes-nothing', 'lifts-scarcer']);
    expect(codes([bay], {}, fewLifts)).toEqual(['changes-nothing']);
  });

  it('does not take a large difference that is not sure for none', () => {
    expect(codes([bay], { lateHoursPerWeek: [-40, -15, 10] })).toEqual(['not-sure']);
  });

  it('says when more is done than before, which takes time from the rest', () => {
    expect(codes([{ kind: 'tool', tool: 'press' }], { turnedAway: [-14, -12, -10] })).toEqual([
      'more-work-done',
    ]);
  });

  it('asks for more years where there is one', () => {
    const differences = Object.fromEntries(
      FIGURES.map((figure) => [figure, { mean: 0, bounds: null }]),
    ) as unknown as Parameters<typeof adviceOn>[2];
    expect(adviceOn([bay], base, differences).map(({ code }) => code)).toEqual(['too-few-years']);
  });
});
