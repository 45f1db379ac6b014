import { fail, ok, type Result } from '#libs/kernel';
import type { ChoicePrice, FrozenRevision } from '#libs/estimate';
import type { Tx } from '../../../platform/database/tx.js';
import { loadOffer, priceOffer, type Offer } from '../../estimates/index.js';

/** What an owner sees: the document as it was sent, the decisions so far, and prices of today's choice. */
export interface Approval {
  readonly offer: Offer;
  readonly document: FrozenRevision;
  readonly shownSha256: string;
  /** Of the lines that are approved and not begun, or of those asked for. */
  readonly price: ChoicePrice;
  /** Of all lines that are not begun. */
  readonly whole: ChoicePrice;
  /** Whether the vehicle is still here, so that answers can change. */
  readonly isOpen: boolean;
}

export function approvedOf(offer: Offer): string[] {
  return [...offer.standing.values()]
    .filter(({ answer }) => answer === 'approved')
    .map(({ lineId }) => lineId);
}

export async function approvalOf(
  tx: Tx,
  revisionId: string,
  chosen?: (offer: Offer) => readonly string[],
): Promise<Result<Approval>> {
  const loaded = await loadOffer(tx, revisionId);
  if (!loaded.ok) return loaded;
  const offer = loaded.value;
  const { document, shownSha256 } = offer;
  if (document === null || shownSha256 === null)
    return fail('revision-not-sent', 'This revision has not been sent.');
  const price = priceOffer(offer, (chosen ?? approvedOf)(offer));
  if (!price.ok) return price;
  const whole = priceOffer(
    offer,
    offer.lines.map(({ id }) => id),
  );
  if (!whole.ok) return whole;
  const stay = await tx.one<{ isOpen: boolean }>(
    'select picked_up_at is null as "isOpen" from repair_orders where shop_id = $1 and id = $2',
    [tx.shopId, offer.repairOrderId],
  );
  return ok({
    offer,
    document,
    shownSha256,
    price: price.value,
    whole: whole.value,
    isOpen: stay?.isOpen ?? false,
  });
}
