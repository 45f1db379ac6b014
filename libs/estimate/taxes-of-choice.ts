import { cents } from '#libs/kernel';
import type { Cents } from '#libs/kernel';
import { divideHalfUp, largestRemainder } from '#libs/money';
import { MILLION } from './effective-rate.js';
import type { PricingPolicy, TaxRule } from './pricing-policy.js';
import { roundHalfUp } from './round-half-up.js';
import { splitCents } from './split-cents.js';

/** One tax over all lines of a choice; `bases` and `perLine` are in the order of the lines. */
export interface TaxOfChoice {
  readonly rule: TaxRule;
  readonly bases: readonly Cents[];
  readonly perLine: readonly Cents[];
  readonly cents: Cents;
}

const sum = (amounts: readonly number[]): number => amounts.reduce((total, one) => total + one, 0);
const turned = (amount: number): Cents => cents(-amount);

/**
 * All taxes on some amounts, each by its own base: rounded each by itself, or once together and split over them by
 * largest remainder. "The rounding rule may be applied to the aggregated state and local taxes" (Streamlined Sales and
 * Use Tax Agreement s. 324).
 */
export function taxesOn(
  { taxes, taxesCombined }: Pick<PricingPolicy, 'taxes' | 'taxesCombined'>,
  bases: readonly number[],
): number[] {
  if (taxesCombined !== true)
    return taxes.map(({ ratePpm }, at) => roundHalfUp(bases[at] ?? 0, ratePpm, MILLION));
  const exact = taxes.map(({ ratePpm }, at) => BigInt(bases[at] ?? 0) * BigInt(ratePpm));
  const whole = divideHalfUp(
    exact.reduce((total, one) => total + one, 0n),
    BigInt(MILLION),
  );
  return largestRemainder(whole, exact).map(Number);
}

function taxesOnCharges(policy: TaxTerms, bases: readonly (readonly Cents[])[]): TaxOfChoice[] {
  const { taxes, taxRounding } = policy;
  const of = (rule: TaxRule, at: number, perLine: readonly Cents[]): TaxOfChoice => ({
    rule,
    bases: bases[at] ?? [],
    perLine,
    cents: cents(sum(perLine)),
  });
  if (taxRounding === 'line') {
    const lines = (bases[0] ?? []).map((_, line) =>
      taxesOn(
        policy,
        bases.map((own) => own[line] ?? 0),
      ),
    );
    return taxes.map((rule, at) =>
      of(
        rule,
        at,
        lines.map((own) => cents(own[at] ?? 0)),
      ),
    );
  }
  const wholes = taxesOn(policy, bases.map(sum));
  return taxes.map((rule, at) => of(rule, at, splitCents(wholes[at] ?? 0, bases[at] ?? [])));
}

export type TaxTerms = Pick<PricingPolicy, 'taxes' | 'taxRounding' | 'taxesCombined'>;

/**
 * Every tax of the policy on a choice, half up. Rounded by line, the total is the sum of the lines' taxes; rounded by
 * invoice, it is the tax on the sum, spread over the lines by largest remainder of what each is taxed on. Combined taxes
 * are rounded once together, by line or by invoice, and their cents split over the taxes first. A credit, whose amounts are
 * all below zero, mirrors the charge.
 */
export function taxesOfChoice(
  policy: TaxTerms,
  basesFor: (rule: TaxRule) => readonly Cents[],
): TaxOfChoice[] {
  const bases = policy.taxes.map(basesFor);
  const isCredit = bases.some((own) => own.some((base) => base < 0));
  if (!isCredit) return taxesOnCharges(policy, bases);
  if (bases.some((own) => own.some((base) => base > 0)))
    throw new RangeError('taxesOfChoice: a charge and a credit are taxed apart');
  const charged = taxesOnCharges(
    policy,
    bases.map((own) => own.map(turned)),
  );
  return charged.map((tax, at) => ({
    rule: tax.rule,
    bases: bases[at] ?? [],
    perLine: tax.perLine.map(turned),
    cents: turned(tax.cents),
  }));
}
