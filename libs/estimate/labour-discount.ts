import { divideHalfUp } from '#libs/money';
import { MILLION, nominalRate } from './effective-rate.js';
import type { EstimateLine } from './estimate-line.js';
import type { LabourOfChoice } from './labour-of-choice.js';
import { pairKey } from './pair-key.js';
import type { PreparedEstimate, PreparedLine } from './prepare-estimate.js';

/** A line's labour at its undiscounted rate, by its even part of each step: what no charge takes off. A step that others pay for was not taken off. */
function undiscounted(own: PreparedLine, prepared: PreparedEstimate, labour: LabourOfChoice): number {
  const { line, steps } = own;
  const rates = new Map<string, number>();
  for (const step of line.steps)
    rates.set(pairKey(step), Math.max(nominalRate(line, step), rates.get(pairKey(step)) ?? 0));
  let top = 0n;
  let bottom = 1n;
  for (const number of steps) {
    const step = prepared.steps[number];
    if (step === undefined || !labour.carries(own, number)) continue;
    const users = BigInt(labour.carriersOf(number));
    const money = BigInt(labour.hoursOf(number)) * BigInt(rates.get(pairKey(step)) ?? 0);
    top = top * users + money * bottom;
    bottom *= users;
  }
  return Number(divideHalfUp(top, 100n * bottom));
}

const kept = ({ discount }: EstimateLine, keepPpm: number): bigint =>
  BigInt(MILLION - (discount?.labourPpm ?? 0)) * BigInt(keepPpm);

/**
 * What percentages and no charge took off a line's labour, of which `cents` are left: for information. Of a step that is
 * shared, a line pays its own part only, and only that was discounted.
 */
export function labourDiscount(
  prepared: PreparedEstimate,
  labour: LabourOfChoice,
  line: PreparedLine,
  cents: number,
): number {
  const whole = BigInt(MILLION) * BigInt(MILLION);
  const keep = kept(line.line, prepared.keepPpm);
  if (line.line.noCharge != null || keep === 0n) return undiscounted(line, prepared, labour);
  if (keep === whole) return 0;
  return Number(divideHalfUp(BigInt(cents) * (whole - keep), keep));
}
