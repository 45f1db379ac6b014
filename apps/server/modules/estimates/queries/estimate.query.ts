import { can } from '#libs/access';
import { cents, fail, ok, type Result } from '#libs/kernel';
import { authorisedCents } from '#libs/approval';
import {
  priceChoice,
  type AgreedLine,
  type ChoiceInput,
  type ChoicePrice,
  type PricingPolicy,
} from '#libs/estimate';
import type { Tx } from '../../../platform/database/tx.js';
import {
  agreedCharges,
  chargedCents,
  contingencyResponses,
  openCapsCents,
} from '../data/contingency.mapping.js';
import { benefitWeights } from '../../identity/index.js';
import { pricingFault } from '../data/pricing-fault.js';
import { revisionResponse } from '../data/revision.mapping.js';
import type { EstimateResponse, RevisionResponse } from '../dto/revision.response.js';
import { AUTHORISATION_NOTICE } from '../shown-words.js';
import { contingenciesOf } from './contingencies.query.js';
import { draftTerms } from './draft-terms.query.js';
import { linesOf, type LineFacts } from './lines.query.js';
import { givenFor, HEAD_COLUMNS, readHead, revisionHead, type RevisionHead } from './offer.query.js';
import { pricingPolicy } from './pricing-policy.query.js';
import { rangeFactsNow, rangeOfWhole } from './range.query.js';
import { standingDecisions, type LatestDecision } from './standing-decisions.query.js';
import { vehicleOnEstimate } from './vehicle-on-estimate.query.js';

/** What a revision is priced from: a sent one from what was frozen, a draft by what is stored now. */
async function basisOf(
  tx: Tx,
  head: RevisionHead,
  lines: readonly LineFacts[],
  decisions: ReadonlyMap<string, LatestDecision>,
  policy: PricingPolicy,
  charges: readonly AgreedLine[],
): Promise<Omit<ChoiceInput, 'chosen'>> {
  if (head.shown !== null) {
    const { orderDiscount, packages } = head.shown;
    return {
      lines: head.shown.lines,
      given: head.shown.given,
      policy: head.shown.policy,
      orderDiscount,
      packages,
    };
  }
  const given = givenFor(head.id, decisions, new Set(), charges);
  return { ...(await draftTerms(tx, head.id, lines)), given, policy };
}

/** All lines of a revision chosen. */
function priceWhole(basis: Omit<ChoiceInput, 'chosen'>): Result<ChoicePrice> {
  const priced = priceChoice({ ...basis, chosen: basis.lines.map(({ id }) => id) });
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
  const offered = await contingenciesOf(tx, { repairOrderId });
  const decisions = await standingDecisions(tx, repairOrderId);
  const policy = await pricingPolicy(tx);
  const weights = await benefitWeights(tx);
  const factsNow = await rangeFactsNow(tx, repairOrderId);
  const showCost = tx.actor.kind === 'staff' && can(tx.actor.roles, 'estimate.write');
  const revisions: RevisionResponse[] = [];
  for (const head of heads.map(readHead)) {
    const own = lines.filter(({ revisionId }) => revisionId === head.id);
    const basis = await basisOf(tx, head, own, decisions, policy, agreedCharges(offered));
    const price = priceWhole(basis);
    if (!price.ok) return price;
    const contingencies = contingencyResponses({
      ...basis,
      version: head.version,
      contingencies: offered.filter(({ revisionId }) => revisionId === head.id),
      price: price.value,
      showCost,
    });
    if (!contingencies.ok) return contingencies;
    const range = rangeOfWhole({ head, own, basis, price: price.value, decisions, offered, factsNow });
    if (!range.ok) return range;
    const { orderDiscount, packages } = basis;
    const parts = {
      head,
      lines: own,
      orderDiscount,
      packages,
      price: price.value,
      decisions,
      showCost,
      weights,
    };
    revisions.push(revisionResponse({ ...parts, contingencies: contingencies.value, range: range.value }));
  }
  return ok({
    repairOrderId,
    currency: shop.currency,
    authorisedCents: cents(authorisedCents([...decisions.values()]) + chargedCents(offered)),
    contingentCents: openCapsCents(offered),
    vehicle: await vehicleOnEstimate(tx, repairOrderId),
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
