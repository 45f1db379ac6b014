import { bookHundredths, fail, ok } from '#libs/kernel';
import type { Fault, Result } from '#libs/kernel';
import { together } from '#libs/labour';
import type { LabourFault } from '#libs/labour';
import type { AlreadyAgreed } from './already-agreed.js';
import type { EstimateLine } from './estimate-line.js';
import { figureFaults } from './figure-faults.js';
import type { LinePackage } from './line-package.js';
import type { OrderDiscount } from './order-discount.js';
import { packageRange } from './package-hours.js';
import { pairKey } from './pair-key.js';
import { hoursText } from './plain-text.js';
import type { PricingPolicy } from './pricing-policy.js';

/**
 * `line-listed-twice`: two lines under one id. `line-unknown`: a chosen id that no line has. `figure-invalid`: a
 * quantity, price, rate, discount or amount that is not a whole number from zero up, or beyond all reason; each is pointed
 * at. `tax-named-twice`. `package-hours-impossible`: a package that takes less than a part of its lines, or more than all
 * of them by themselves; `facts` name the range.
 */
export type ChoiceFault =
  | LabourFault
  | Fault<
      'line-listed-twice' | 'line-unknown' | 'figure-invalid' | 'tax-named-twice' | 'package-hours-impossible'
    >;

export interface ChoiceInput {
  readonly lines: readonly EstimateLine[];
  /** Ids of lines; an id that is listed twice counts once. */
  readonly chosen: readonly string[];
  readonly given: AlreadyAgreed;
  readonly policy: PricingPolicy;
  readonly orderDiscount?: OrderDiscount;
  readonly packages?: readonly LinePackage[];
}

const firstTwice = (names: readonly string[]): string | undefined => {
  const seen = new Set<string>();
  return names.find((name) => seen.size === seen.add(name).size);
};

/** All lines, chosen or not: a step with two different hours is wrong today even if only one of them is chosen. */
function checkSteps(lines: readonly EstimateLine[]): Result<void, LabourFault> {
  const hours = new Map<string, number>();
  for (const line of lines) {
    for (const step of line.steps) {
      const key = pairKey(step);
      const known = hours.get(key);
      if (known === undefined) hours.set(key, step.hundredths);
      else if (known !== step.hundredths) {
        const fault = together(lines);
        return fault.ok ? ok(undefined) : fault;
      }
    }
  }
  return ok(undefined);
}

/** A package whose lines are all here can be held against them; of one that was begun, the frozen hours are used. */
function checkPackages({ lines, packages = [] }: ChoiceInput): Result<void, ChoiceFault> {
  for (const [at, { name, lineIds, hundredths }] of packages.entries()) {
    const members = lines.filter(({ id }) => lineIds.includes(id));
    if (members.length < new Set(lineIds).size) continue;
    const { low, high } = packageRange(members);
    if (hundredths >= low && hundredths <= high) continue;
    return fail(
      'package-hours-impossible',
      `Package "${name}" must take from ${hoursText(bookHundredths(low))} to ${hoursText(bookHundredths(high))}: not less than any part of it, not more than its lines one by one.`,
      {
        fields: [{ pointer: `/packages/${at}/hundredths`, detail: `From ${low} to ${high} hundredths.` }],
        facts: { lowHundredths: low, highHundredths: high },
      },
    );
  }
  return ok(undefined);
}

/** Whether a choice can be priced, before any of it is. */
export function checkChoice(input: ChoiceInput): Result<ChoiceInput, ChoiceFault> {
  const { lines, chosen, policy } = input;
  const ids = lines.map(({ id }) => id);
  const twice = firstTwice(ids);
  if (twice !== undefined) return fail('line-listed-twice', `Line "${twice}" is listed twice.`);
  const tax = firstTwice(policy.taxes.map(({ name }) => name));
  if (tax !== undefined)
    return fail('tax-named-twice', `Two taxes are called "${tax}": give each its own name.`);
  const known = new Set(ids);
  const unknown = chosen.find((id) => !known.has(id));
  if (unknown !== undefined) return fail('line-unknown', `Line "${unknown}" is not part of this estimate.`);
  const fields = figureFaults(input);
  if (fields.length > 0) return fail('figure-invalid', 'Some figures cannot be priced.', { fields });
  const steps = checkSteps(lines);
  if (!steps.ok) return steps;
  const packages = checkPackages(input);
  return packages.ok ? ok(input) : packages;
}
