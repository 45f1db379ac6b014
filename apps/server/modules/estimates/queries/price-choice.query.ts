import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { choiceResponse } from '../data/choice.mapping.js';
import { named, namesIn } from '../data/named.js';
import type { ChoiceResponse } from '../dto/revision.response.js';
import { linesOf } from './lines.query.js';
import { loadOffer, priceOffer } from './offer.query.js';

/** What a choice of lines of a revision costs now: a draft by today's policy, a sent one by the policy it was sent with. */
export async function priceOfChoice(
  tx: Tx,
  revisionId: string,
  chosen: readonly string[],
): Promise<Result<ChoiceResponse>> {
  const offer = await loadOffer(tx, revisionId);
  if (!offer.ok) return offer;
  const price = priceOffer(
    offer.value,
    chosen.map((lineId) => lineId.toLowerCase()),
  );
  if (!price.ok) return price;
  const names = namesIn(await linesOf(tx, { revisionId }));
  return ok(choiceResponse(offer.value, price.value, (tree) => named(tree, names)));
}
