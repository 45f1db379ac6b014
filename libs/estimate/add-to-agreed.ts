import { cents } from '#libs/kernel';
import type { AgreedStep, AlreadyAgreed } from './already-agreed.js';
import type { ChoicePrice } from './choice-price.js';
import { isCharged } from './effective-rate.js';
import type { EstimateLine } from './estimate-line.js';
import { pairKey } from './pair-key.js';

/** The packages agreed to before and those that this choice put in force, with the approved lines of each. */
function packagesWith(given: AlreadyAgreed, price: ChoicePrice): AlreadyAgreed['packages'] {
  const packages = new Map((given.packages ?? []).map((one) => [one.package, one.lineIds]));
  for (const { key, lineIds } of price.packages) packages.set(key, lineIds);
  return [...packages].map(([key, lineIds]) => ({ package: key, lineIds }));
}

/**
 * What the owner has agreed to once they have approved a choice: what they had agreed to before, and the steps, labour
 * and supplies of its lines. It is the `given` of whatever is chosen next, so that no step is sold twice, the floor
 * and cap of supplies hold over all revisions, and an amount off the order is given once. Steps that only lines without
 * charge use were agreed to by nobody. For the next choice of another revision, leave `orderDiscountCents` out.
 */
export function addToAgreed(
  given: AlreadyAgreed,
  lines: readonly EstimateLine[],
  price: ChoicePrice,
): AlreadyAgreed {
  const chosen = price.lines.filter((line) => line.chosen);
  const approved = new Set(chosen.map(({ id }) => id));
  const steps = new Map(given.steps.map((pair) => [pairKey(pair), pair]));
  for (const line of lines) {
    if (!approved.has(line.id) || !isCharged(line)) continue;
    const under = price.packages.find(({ lineIds }) => lineIds.includes(line.id))?.key;
    for (const { step, position } of line.steps) {
      const agreed: AgreedStep = { step, position, ...(under === undefined ? {} : { package: under }) };
      steps.set(pairKey(agreed), agreed);
    }
  }
  const add = (amounts: readonly number[]): number => amounts.reduce((sum, one) => sum + one, 0);
  const base = add(chosen.map((line) => line.suppliesBaseCents));
  const off = (given.orderDiscountCents ?? 0) + add(chosen.map((line) => line.orderDiscountCents));
  const packages = packagesWith(given, price);
  return {
    steps: [...steps.values()],
    labourCents: cents(given.labourCents + price.totals.labourCents),
    suppliesCents: cents(given.suppliesCents + price.totals.suppliesCents),
    suppliesBaseCents: cents((given.suppliesBaseCents ?? given.labourCents) + base),
    ...(off === 0 ? {} : { orderDiscountCents: cents(off) }),
    ...(packages === undefined || packages.length === 0 ? {} : { packages }),
  };
}
