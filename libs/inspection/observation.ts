import type { MayDrive, Verdict } from './verdict.js';
import type { Unit } from './units.js';

/** A measurement as it was read: the number stays text, in the unit it was taken in, so that nothing is lost. */
export interface Reading {
  /** What was measured, in the checkpoint's own words: "inner groove", "play". */
  readonly measure: string;
  /** A decimal number as text: "1.59". */
  readonly value: string;
  readonly unit: Unit;
}

/** What was seen at one checkpoint. Dates are ISO (2031-05-06), the odometer is in the shop's unit of distance. */
export interface Observation {
  readonly checkpointId: string;
  readonly verdict: Verdict;
  readonly mayDrive: MayDrive | null;
  readonly unseenReason: string | null;
  readonly lookAgainOn: string | null;
  readonly lookAgainOdometer: number | null;
  readonly readings: readonly Reading[];
  readonly note: string | null;
}
