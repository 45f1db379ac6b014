import type { BayMinutes, ReplayMeasures } from './measure-replay.js';

/** One number for each thing that a manager asks about, per week where it grows with the time. */
export interface Figures {
  /** Weighted hours after the promised times. */
  readonly lateHoursPerWeek: number;
  readonly keptPercent: number;
  readonly readyPerWeek: number;
  readonly stayHours: number;
  readonly openAtEnd: number;
  readonly turnedAway: number;
  readonly liftWorkHoursPerWeek: number;
  readonly liftBlockedHoursPerWeek: number;
  readonly liftIdleHoursPerWeek: number;
  readonly technicianHoursPerWeek: number;
  readonly technicianUsedPercent: number;
}

export const FIGURES = [
  'lateHoursPerWeek',
  'keptPercent',
  'readyPerWeek',
  'stayHours',
  'openAtEnd',
  'turnedAway',
  'liftWorkHoursPerWeek',
  'liftBlockedHoursPerWeek',
  'liftIdleHoursPerWeek',
  'technicianHoursPerWeek',
  'technicianUsedPercent',
] as const satisfies readonly (keyof Figures)[];

/** The most that a figure can be; none can be less than nothing. */
export const mostOf = (figure: keyof Figures): number => (figure.endsWith('Percent') ? 100 : Infinity);

const percent = (part: number, whole: number): number => (whole === 0 ? 100 : (100 * part) / whole);

export function figuresOf(measures: ReplayMeasures, weeks: number): Figures {
  const lifts = measures.bays.filter(({ isLift }) => isLift);
  const hours = (minutes: number): number => minutes / 60 / weeks;
  const liftHours = (part: 'work' | 'blocked' | 'idle'): number =>
    hours(lifts.reduce((sum, bay: BayMinutes) => sum + bay[part], 0));
  const total = (part: 'used' | 'available'): number =>
    measures.technicians.reduce((sum, one) => sum + one[part], 0);
  return {
    lateHoursPerWeek: hours(measures.latenessMinutes),
    keptPercent: percent(measures.kept, measures.promised),
    readyPerWeek: measures.readyPerWeek,
    stayHours: (measures.meanStayMinutes ?? 0) / 60,
    openAtEnd: measures.openAtEnd,
    turnedAway: measures.turnedAway,
    liftWorkHoursPerWeek: liftHours('work'),
    liftBlockedHoursPerWeek: liftHours('blocked'),
    liftIdleHoursPerWeek: liftHours('idle'),
    technicianHoursPerWeek: hours(total('used')),
    technicianUsedPercent: percent(total('used'), total('available')),
  };
}
