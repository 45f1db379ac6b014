import type { BookHundredths } from '#libs/kernel';
import type { LabourStep } from '#libs/labour';

/**
 * A book time that the shop has entered for exactly a set of lines. Where all of them are chosen, no other chosen line
 * shares a step with them, and nothing of their steps was agreed to outside the package, it replaces the sum of their steps.
 */
export interface LinePackage {
  readonly name: string;
  readonly lineIds: readonly string[];
  /** Between the hours of every part of the set and those of the whole. */
  readonly hundredths: BookHundredths;
  /** The hours that its steps are sold at, as they were frozen: needed once some of its lines are no longer open. */
  readonly steps?: readonly LabourStep[];
}
