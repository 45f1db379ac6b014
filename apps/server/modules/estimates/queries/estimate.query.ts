import { can } from '#libs/access';
import { cents, fail, ok, type Result } from '#libs/kernel';
import { authorisedCents } from '#libs/approval';
import { priceChoice, type ChoicePrice, type PricingPolicy } from '#libs/estimate';
import type { Tx } from '../../../platform/database/tx.js';
import { estimateLine } from '../data/line.mapping.js';
import { pricingFault } from '../data/pricing-fault.js';
import { revisionResponse } from '../data/revision.mapping.js';
import type { EstimateResponse, RevisionResponse } from '../dto/revision.response.js';
import { AUTHORISATION_NOTICE } from '../shown-words.js';
import { linesOf, type LineFacts } from './lines.query.js';
import { givenFor, HEAD_COLUMNS, revisionHead, type RevisionHead } from './offer.query.js';
import { pricingPolicy } from './pricing-policy.query.js';
import { standingDecisions, type LatestDecision } from './standing-decisions.query.js';

/** All lines of a revision chosen: a sent one from what was frozen, a draft by what is stored now. */
function priceWhole(
  head: RevisionHead,
  lines: readonly LineFacts[],
  decisions: ReadonlyMap<string, LatestDecision>,
  policy: PricingPolicy,
): Result<ChoicePrice> {
  const chosen = lines.map(({ id }) => id);
  const priced =
    head.shown === null
      ? priceChoice({
          lines: lines.map(estimateLine),
          chosen,
          given: givenFor(head.id, decisions, new Set()),
          policy,
        })
      : priceChoice({ lines: head.shown.lines, chosen, given: head.shown.given, policy: head.shown.policy });
  return priced.ok ? priced : pricingFault(priced.fault);
}

/** The revisions of a repair order with lines, prices, their explanation, and what the owner decided. */
export async function estimateOf(tx: Tx, repairOrderId: string): Promise<Result<EstimateResponse>> {
  const shop = await tx.one<{ currency: string }>(
    `select s.currency from shops s join repair_orders r on r.shop_id = s.shop_id
      where s.shop_id = $1 and r.id = $2`,
    [tx.shopId, repairOrderId],
  );
  if (!shop) return fail('not-found', 'There is no such repair order in this shop.');
  const heads = await tx.rows<RevisionHead>(
    `select ${HEAD_COLUMNS} from revisions v where v.shop_id = $1 and v.repair_order_id = $2 order by v.number`,
    [tx.shopId, repairOrderId],
  );
  const lines = await linesOf(tx, { repairOrderId });
  const decisions = await standingDecisions(tx, repairOrderId);
  const policy = await pricingPolicy(tx);
  const showCost = tx.actor.kind === 'staff' && can(tx.actor.roles, 'estimate.write');
  const revisions: RevisionResponse[] = [];
  for (const head of heads) {
    const own = lines.filter(({ revisionId }) => revisionId === head.id);
    const price = priceWhole(head, own, decisions, policy);
    if (!price.ok) return price;
    revisions.push(revisionResponse({ head, lines: own, price: price.value, decisions, showCost }));
  }
  return ok({
    repairOrderId,
    currency: shop.currency,
    authorisedCents: cents(authorisedCents([...decisions.values()])),
    revisions,
    notice: AUTHORISATION_NOTICE,
  });
}

export async function revisionOf(tx: Tx, revisionId: string): Promise<Result<RevisionResponse>> {
  const head = await revisionHead(tx, revisionId);
  if (!head.ok) return head;
  const estimate = await estimateOf(tx, head.value.repairOrderId);
  if (!estimate.ok) return estimate;
  const found = estimate.value.revisions.find(({ id }) => id === revisionId);
  return found ? ok(found) : fail('not-found', 'There is no such revision in this shop.');
}
