import { floorOf, yearOf } from '../../test/builders/what-if.js';
import { runCalc, tellShape } from './run-calc.js';

function calc(element: unknown) {
  const { exitCode, stdout } = runCalc('what-if', JSON.stringify([element]));
  expect(exitCode).toBe(0);
  return JSON.parse(stdout)[0];
}

const asked = {
  floor: floorOf(2, 2),
  year: yearOf(3, 2),
  alternatives: [{ name: 'one more technician', changes: [{ kind: 'technician', like: 'technician 1' }] }],
  seeds: [1, 2],
};

describe('what-if on the command line', () => {
  it('compares and says what it was asked', () => {
    const { base, alternatives, arrived, weeks } = calc(asked);
    expect(weeks).toBe(2);
    expect(arrived).toHaveLength(2);
    expect(base.readyPerWeek).toBeGreaterThan(5);
    const [one] = alternatives;
    expect(one.name).toBe('one more technician');
    expect(one.differences.technicianUsedPercent.mean).toBeLessThan(0);
    expect(one.differences.readyPerWeek.bounds).not.toBeNull();
    expect(one.figures.readyPerWeek - base.readyPerWeek).toBeCloseTo(one.differences.readyPerWeek.mean, 9);
  });

  it('names what is wrong where it is', () => {
    expect(
      calc({ ...asked, alternatives: [{ name: 'x', changes: [{ kind: 'bay', like: 'nowhere' }] }] }),
    ).toEqual({
      error: { code: 'floor-change-not-possible', message: 'There is no bay "nowhere".' },
    });
    expect(calc({ ...asked, seeds: [1.5] }).error.message).toContain('"seeds[0]" must be a whole number');
    expect(calc({ ...asked, year: { weeks: 1 } }).error.code).toBe('field-missing');
  });

  it('takes planned absences', () => {
    const [first, ...others] = asked.floor.technicians;
    const away = { ...first, away: [[0, 14 * 1440]] };
    const alone = calc({ ...asked, floor: { ...asked.floor, technicians: [away, ...others] } });
    expect(alone.base.technicianHoursPerWeek).toBeLessThan(calc(asked).base.technicianHoursPerWeek);
    const backwards = { ...first, away: [[10, 5]] };
    expect(
      calc({ ...asked, floor: { ...asked.floor, technicians: [backwards, ...others] } }).error,
    ).toMatchObject({ code: 'what-if-floor-invalid' });
  });

  it('prints its shape', () => {
    expect(tellShape('what-if').stdout).toContain('day-open');
  });
});
