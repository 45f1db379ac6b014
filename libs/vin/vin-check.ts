/**
 * `valid`: right by every rule that applies. `reject`: wrong, enter it again. `accept-unchecked`: from before the
 * 17-character standard, kept as typed. `accept-warn`: kept, but have a second look.
 */
export type VinVerdict = 'valid' | 'reject' | 'accept-unchecked' | 'accept-warn';

export type VinReason =
  | 'VALID'
  | 'YEAR_DIFFERS'
  | 'PRE_STANDARD'
  | 'EMPTY'
  | 'TOO_SHORT'
  | 'TOO_LONG'
  | 'BAD_CHARACTER'
  | 'CHECK_CHAR'
  | 'CHECK_DIGIT'
  | 'YEAR_CODE';

export interface VinCheck {
  readonly verdict: VinVerdict;
  /** Trimmed and in capitals; hyphens and spaces dropped only where 17 characters remain. */
  readonly normalised: string;
  /** What the ninth character has to be ("0" to "9" or "X"); null unless there are 17 characters of the right alphabet. */
  readonly checkDigit: string | null;
  /** Model years that the tenth character can stand for, ascending; empty where it says nothing. */
  readonly modelYears: readonly number[];
  readonly reason: VinReason;
  /** For the person at the desk: what is wrong and what to do. */
  readonly sentence: string;
}
