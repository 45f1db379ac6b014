import { divideHalfUp } from '#libs/money';
import type { EstimateLine, EstimateStep } from './estimate-line.js';
import { roundHalfUp } from './round-half-up.js';

export const MILLION = 1_000_000;

/** What an hour of a step costs on a line before any discount, in cents. */
export function nominalRate(line: EstimateLine, step: EstimateStep): number {
  return step.rateCentsPerHour ?? line.rateCentsPerHour;
}

/** Whether anybody pays for the labour of a line: not where it is given under warranty or goodwill, or at all of it off. */
export function isCharged({ noCharge, discount }: EstimateLine): boolean {
  return noCharge == null && discount?.labourPpm !== MILLION;
}

/**
 * What an hour of a step costs on a line, in millionths of a cent, so that a percentage off is exact: nothing where the
 * line is not charged. A discount of the order on labour lowers all rates alike and is not in it.
 */
export function effectiveRate(line: EstimateLine, step: EstimateStep): number {
  if (line.noCharge != null) return 0;
  return nominalRate(line, step) * (MILLION - (line.discount?.labourPpm ?? 0));
}

/** The cents of some hours at such a rate, of which the order leaves `keepPpm`; half up once on the exact product. */
export function labourMoney(hundredths: number, rateMillionths: number, keepPpm: number): number {
  const rate = rateMillionths / MILLION;
  if (keepPpm === MILLION && Number.isInteger(rate)) return roundHalfUp(hundredths, rate, 100);
  if (keepPpm === MILLION) return roundHalfUp(hundredths, rateMillionths, 100 * MILLION);
  const exact = BigInt(hundredths) * BigInt(rateMillionths) * BigInt(keepPpm);
  return Number(divideHalfUp(exact, 100_000_000_000_000n));
}
