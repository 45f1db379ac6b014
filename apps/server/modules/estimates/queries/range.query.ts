import { ppm, type Result } from '#libs/kernel';
import type { ChoiceInput, ChoicePrice, FrozenRevision } from '#libs/estimate';
import type { Tx } from '../../../platform/database/tx.js';
import { unseenOf } from '../../inspections/index.js';
import { revisionLine } from '../data/line.mapping.js';
import { rangeResponse, type RangeFacts } from '../data/range.mapping.js';
import type { RangeResponse } from '../dto/range.response.js';
import type { ContingencyFacts } from './contingencies.query.js';
import { linesOf, type LineFacts } from './lines.query.js';
import { loadOffer, priceOffer, type Offer, type RevisionHead } from './offer.query.js';
import type { LatestDecision } from './standing-decisions.query.js';

/** Under this name a sent revision keeps how far all hours were thought to move together. */
export const COMMON_SPREAD = 'commonSpreadPpm';

/** As a revision was sent; one from before ranges knew neither. */
export function sentRangeFacts({ about, unseen }: FrozenRevision): RangeFacts {
  const spread = about[COMMON_SPREAD];
  return { unseen: unseen ?? [], commonSpreadPpm: ppm(typeof spread === 'number' ? spread : 0) };
}

/** As they are now, for a draft. */
export async function rangeFactsNow(tx: Tx, repairOrderId: string): Promise<RangeFacts> {
  const shop = await tx.one<{ spread: number }>(
    'select common_spread_ppm as spread from shops where shop_id = $1',
    [tx.shopId],
  );
  return { unseen: await unseenOf(tx, repairOrderId), commonSpreadPpm: ppm(shop?.spread ?? 0) };
}

interface WholeRevision {
  readonly head: RevisionHead;
  readonly own: readonly LineFacts[];
  readonly basis: Omit<ChoiceInput, 'chosen'>;
  /** Of all lines. */
  readonly price: ChoicePrice;
  readonly decisions: ReadonlyMap<string, LatestDecision>;
  /** Over the whole repair order. */
  readonly offered: readonly ContingencyFacts[];
  readonly factsNow: RangeFacts;
}

/** The range of a revision with all its lines chosen, from what an estimate has loaded already. */
export function rangeOfWhole(whole: WholeRevision): Result<RangeResponse> {
  const { head, own, basis, price, decisions, offered, factsNow } = whole;
  const { given, policy, orderDiscount } = basis;
  return rangeResponse({
    ...(head.shown === null ? factsNow : sentRangeFacts(head.shown)),
    revisionId: head.id,
    lines: head.shown?.lines ?? own.map(revisionLine),
    price,
    given,
    policy,
    ...(orderDiscount === undefined ? {} : { orderDiscount }),
    contingencies: offered.filter(({ revisionId }) => revisionId === head.id),
    approved: new Map(
      own.flatMap(({ id }) => {
        const decision = decisions.get(id);
        return decision?.answer === 'approved' ? [[id, decision.shownTotalCents] as const] : [];
      }),
    ),
    begun: new Set(),
  });
}

/** The range of a choice of an offer's lines that were priced already. */
export async function rangeOfOffer(
  tx: Tx,
  offer: Offer,
  chosen: readonly string[],
): Promise<Result<RangeResponse>> {
  const price = priceOffer(offer, chosen);
  if (!price.ok) return price;
  const { document, revisionId, repairOrderId, given, policy, contingencies, standing } = offer;
  const lines = document?.lines ?? (await linesOf(tx, { revisionId })).map(revisionLine);
  const facts = document === null ? await rangeFactsNow(tx, repairOrderId) : sentRangeFacts(document);
  const approved = [...standing.values()].filter(({ answer }) => answer === 'approved');
  return rangeResponse({
    ...facts,
    revisionId,
    lines,
    price: price.value,
    given,
    policy,
    ...(offer.orderDiscount === undefined ? {} : { orderDiscount: offer.orderDiscount }),
    contingencies,
    approved: new Map(approved.map(({ lineId, shownTotalCents }) => [lineId, shownTotalCents] as const)),
    begun: new Set(approved.flatMap(({ lineId }) => (offer.begun.has(lineId) ? [lineId] : []))),
  });
}

/** What a choice of a revision's lines may come to: a draft by what is known now, a sent one by what was sent. */
export async function rangeOfRevision(
  tx: Tx,
  revisionId: string,
  chosen: readonly string[],
): Promise<Result<RangeResponse>> {
  const offer = await loadOffer(tx, revisionId);
  if (!offer.ok) return offer;
  return rangeOfOffer(
    tx,
    offer.value,
    chosen.map((lineId) => lineId.toLowerCase()),
  );
}
