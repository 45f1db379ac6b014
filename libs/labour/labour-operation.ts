import type { BookHundredths, Fault } from '#libs/kernel';

/** A piece of dismantling or work at one position, with its book hours. */
export interface LabourStep {
  readonly step: string;
  readonly position: string;
  readonly hundredths: BookHundredths;
}

/** An operation with the steps it uses. A step listed twice at one position counts once. */
export interface LabourOperation {
  readonly id: string;
  readonly steps: readonly LabourStep[];
}

/**
 * `step-hours-invalid`: hours that are not a whole number of hundredths, zero or more. `step-hours-differ`: one step at
 * one position with two different hours. `operation-id-twice`: two operations under one id. `operation-unknown`: a chosen
 * id that is not in the catalogue. `book-hours-too-large`: a sum that cannot be kept exactly.
 */
export type LabourFault = Fault<
  | 'step-hours-invalid'
  | 'step-hours-differ'
  | 'operation-id-twice'
  | 'operation-unknown'
  | 'book-hours-too-large'
>;
