import { amountOffOrder } from './amount-off-order.js';
import { labourMoney } from './effective-rate.js';
import { packagesInForce } from './packages-in-force.js';
import { CHARGES, FLUID, LABOUR, PART } from './prepare-estimate.js';
import type { PreparedEstimate, PreparedLine } from './prepare-estimate.js';
import { isTaxed, priceSet } from './price-set.js';
import { suppliesBase, suppliesOfChoice } from './supplies-of-choice.js';
import { taxesOn } from './taxes-of-choice.js';

export interface TotalOfChoice {
  readonly hundredths: number;
  readonly totalCents: number;
}

const add = (amounts: readonly number[]): number => amounts.reduce((sum, one) => sum + one, 0);

/** The hours of a choice by rate, in the order of the estimate's rates; asked again and again, it reuses what it counts in. */
function hoursCounter({
  lines,
  steps,
  rates,
  packages,
}: PreparedEstimate): (chosen: readonly PreparedLine[]) => readonly number[] {
  const hours = new Float64Array(rates.length);
  const soldAt = new Int32Array(steps.length);
  const seen = new Int32Array(steps.length);
  const chosenIn = new Int32Array(lines.length);
  const left = Float64Array.from(steps, (step) => Math.max(0, step.hundredths));
  let pass = 0;
  const move = (rank: number, by: number): void => {
    hours[rank] = (hours[rank] ?? 0) + by;
  };
  return (chosen) => {
    pass++;
    hours.fill(0);
    for (const line of chosen) {
      chosenIn[line.at] = pass;
      for (let index = 0; index < line.steps.length; index++) {
        const step = line.steps[index] ?? 0;
        const rank = line.ranks[index] ?? 0;
        const own = left[step] ?? 0;
        const known = soldAt[step] ?? 0;
        if (seen[step] === pass && known <= rank) continue;
        if (seen[step] === pass) move(known, -own);
        seen[step] = pass;
        soldAt[step] = rank;
        move(rank, own);
      }
    }
    for (const { hours: under } of packagesInForce(packages, (at) => chosenIn[at] === pass)) {
      for (const [step, sold] of under) move(soldAt[step] ?? 0, sold - (left[step] ?? 0));
    }
    return [...hours];
  };
}

/**
 * Hours and total of any choice of an estimate's lines, without its lines and explanations. Where tax is rounded by line, the
 * total hangs on who carries which cent, and costs as much as the whole price.
 */
export function totalOfChoice(
  prepared: PreparedEstimate,
): (chosen: readonly PreparedLine[]) => TotalOfChoice {
  const { given, policy, orderDiscount } = prepared.terms;
  if (policy.taxRounding === 'line')
    return (chosen) =>
      priceSet(
        prepared,
        [...chosen].sort((a, b) => a.at - b.at),
      ).totals;
  const hoursOf = hoursCounter(prepared);
  const taxed = policy.taxes.map(isTaxed);
  return (chosen) => {
    const hours = hoursOf(chosen);
    const charges = CHARGES.map(() => 0);
    for (const line of chosen)
      for (let kind = PART; kind < charges.length; kind++)
        charges[kind] = (charges[kind] ?? 0) + (line.charges[kind] ?? 0);
    hours.forEach((sold, rank) => {
      if (sold > 0)
        charges[LABOUR] =
          (charges[LABOUR] ?? 0) + labourMoney(sold, prepared.rates[rank] ?? 0, prepared.keepPpm);
    });
    if (orderDiscount?.cents !== undefined) {
      const off = amountOffOrder(orderDiscount, given, charges);
      off.forEach((amount, kind) => (charges[kind] = (charges[kind] ?? 0) - amount));
    }
    const base = suppliesBase(
      policy.supplies,
      charges[LABOUR] ?? 0,
      (charges[PART] ?? 0) + (charges[FLUID] ?? 0),
    );
    const supplies = suppliesOfChoice(base, given, policy.supplies);
    const bases = policy.taxes.map(({ on }, tax) =>
      charges.reduce(
        (sum, charge, kind) => (taxed[tax]?.[kind] === true ? sum + charge : sum),
        on.includes('supplies') ? supplies : 0,
      ),
    );
    return { hundredths: add(hours), totalCents: add(charges) + supplies + add(taxesOn(policy, bases)) };
  };
}
