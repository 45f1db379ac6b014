import { cents } from '#libs/kernel';
import type { AlreadyAgreed } from './already-agreed.js';
import type { ChoicePrice } from './choice-price.js';
import type { EstimateLine } from './estimate-line.js';
import { pairKey } from './pair-key.js';

/**
 * What the owner has agreed to once they have approved a choice: what they had agreed to before, and the steps, labour
 * and supplies of its lines. It is the `given` of whatever is chosen next, so that no step is sold twice and the floor
 * and cap of supplies hold over all revisions.
 */
export function addToAgreed(
  given: AlreadyAgreed,
  lines: readonly EstimateLine[],
  price: ChoicePrice,
): AlreadyAgreed {
  const approved = new Set(price.lines.flatMap((line) => (line.chosen ? [line.id] : [])));
  const steps = new Map(given.steps.map((pair) => [pairKey(pair), pair]));
  for (const line of lines) {
    if (!approved.has(line.id)) continue;
    for (const { step, position } of line.steps) steps.set(pairKey({ step, position }), { step, position });
  }
  return {
    steps: [...steps.values()],
    labourCents: cents(given.labourCents + price.totals.labourCents),
    suppliesCents: cents(given.suppliesCents + price.totals.suppliesCents),
  };
}
