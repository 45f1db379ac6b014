import type { Result } from '#libs/kernel';
import type { AlreadyAgreed } from './already-agreed.js';
import type { ChoiceFault } from './check-choice.js';
import type { ChoicePrice } from './choice-price.js';
import type { FrozenRevision } from './frozen-revision.js';
import { priceChoice } from './price-choice.js';

/**
 * What a choice of a sent revision costs, from the frozen document alone: neither catalogue nor policy of today can
 * change what was offered. `given` defaults to what was agreed when it was sent; pass `addToAgreed` of it when lines of the
 * same revision have been approved meanwhile.
 */
export function priceFrozen(
  revision: FrozenRevision,
  chosen: readonly string[],
  given: AlreadyAgreed = revision.given,
): Result<ChoicePrice, ChoiceFault> {
  const { lines, policy, orderDiscount, packages } = revision;
  return priceChoice({ lines, chosen, given, policy, orderDiscount, packages });
}
