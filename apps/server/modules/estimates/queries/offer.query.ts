import { cents, fail, ok, type Cents, type Result } from '#libs/kernel';
import { authorisedCents } from '#libs/approval';
import {
  agreedFrom,
  priceChoice,
  readFrozen,
  type AgreedLine,
  type AlreadyAgreed,
  type ChoiceInput,
  type ChoicePrice,
  type EstimateLine,
  type FrozenRevision,
  type LinePackage,
  type OrderDiscount,
  type PricingPolicy,
} from '#libs/estimate';
import type { Tx } from '../../../platform/database/tx.js';
import { agreedCharges, chargedCents, openCapsCents } from '../data/contingency.mapping.js';
import { pricingFault } from '../data/pricing-fault.js';
import { contingenciesOf, type ContingencyFacts } from './contingencies.query.js';
import { draftTerms } from './draft-terms.query.js';
import { linesOf } from './lines.query.js';
import { pricingPolicy } from './pricing-policy.query.js';
import { begunLines, standingDecisions, type LatestDecision } from './standing-decisions.query.js';

/** A revision with all that the price of a choice of its lines depends on. */
export interface Offer {
  readonly revisionId: string;
  readonly repairOrderId: string;
  readonly number: number;
  /** Null while it is a draft. */
  readonly document: FrozenRevision | null;
  readonly shownSha256: string | null;
  readonly lines: readonly EstimateLine[];
  readonly policy: PricingPolicy;
  readonly orderDiscount: OrderDiscount | undefined;
  readonly packages: readonly LinePackage[] | undefined;
  /** Of the lines of this revision. */
  readonly standing: ReadonlyMap<string, LatestDecision>;
  /** Approved lines of this revision on which work has begun: fixed, and outside every further choice. */
  readonly begun: ReadonlySet<string>;
  /** What is agreed to elsewhere: in other revisions, and by the lines that have begun. */
  readonly given: AlreadyAgreed;
  /** Over the whole repair order, with what has happened and is charged. */
  readonly authorisedCents: Cents;
  /** Of the lines of this revision. */
  readonly contingencies: readonly ContingencyFacts[];
  /** Over the whole repair order: the agreed caps of what has not happened. */
  readonly contingentCents: Cents;
}

export interface RevisionHead {
  readonly id: string;
  readonly repairOrderId: string;
  readonly number: number;
  readonly version: number;
  readonly sentAt: Date | null;
  readonly validUntil: Date | null;
  readonly shown: FrozenRevision | null;
  readonly shownSha256: string | null;
  readonly sentBy: string | null;
}

export const HEAD_COLUMNS = `v.id, v.repair_order_id as "repairOrderId", v.number, v.version, v.sent_at as "sentAt",
  v.valid_until as "validUntil", v.shown, v.shown_sha256 as "shownSha256",
  (select s.display_name from staff s where s.shop_id = v.shop_id and s.id = v.sent_by) as "sentBy"`;

/** A document of any format, for today's readers. */
export const readHead = (row: RevisionHead): RevisionHead => ({
  ...row,
  shown: row.shown === null ? null : readFrozen(row.shown),
});

export async function revisionHead(tx: Tx, revisionId: string): Promise<Result<RevisionHead>> {
  const row = await tx.one<RevisionHead>(
    `select ${HEAD_COLUMNS} from revisions v where v.shop_id = $1 and v.id = $2`,
    [tx.shopId, revisionId],
  );
  return row ? ok(readHead(row)) : fail('not-found', 'There is no such revision in this shop.');
}

const withoutAmountOff = (agreed: AgreedLine): AgreedLine => ({ ...agreed, orderDiscountCents: undefined });

/** Splits what was decided into this revision's own and what is agreed to outside its further choices. */
export function givenFor(
  revisionId: string,
  decisions: ReadonlyMap<string, LatestDecision>,
  begun: ReadonlySet<string>,
  charges: readonly AgreedLine[] = [],
): AlreadyAgreed {
  const fixed = [...decisions.values()].filter(
    ({ answer, lineId, revisionId: own }) =>
      answer === 'approved' && (own !== revisionId || begun.has(lineId)),
  );
  // An amount off the order belongs to one revision; what it took off in another does not count here.
  const agreed = fixed.map((one) =>
    one.revisionId === revisionId ? one.agreed : withoutAmountOff(one.agreed),
  );
  return agreedFrom([...agreed, ...charges]);
}

/** All that the owner has agreed to on a repair order so far, what has happened included: before anything that comes next. */
export async function everythingAgreed(tx: Tx, repairOrderId: string): Promise<AlreadyAgreed> {
  const decisions = [...(await standingDecisions(tx, repairOrderId)).values()];
  const approved = decisions
    .filter(({ answer }) => answer === 'approved')
    .map(({ agreed }) => withoutAmountOff(agreed));
  return agreedFrom([...approved, ...agreedCharges(await contingenciesOf(tx, { repairOrderId }))]);
}

/** `begun` comes from `workBegunOnLines` where the answer must hold until the end of the transaction. */
export async function loadOffer(
  tx: Tx,
  revisionId: string,
  begun?: ReadonlySet<string>,
): Promise<Result<Offer>> {
  const head = await revisionHead(tx, revisionId);
  if (!head.ok) return head;
  const { repairOrderId, number, shown, shownSha256 } = head.value;
  const decisions = await standingDecisions(tx, repairOrderId);
  const contingencies = await contingenciesOf(tx, { repairOrderId });
  const own = [...decisions].filter(([, decision]) => decision.revisionId === revisionId);
  const working = begun ?? (await begunLines(tx, repairOrderId));
  const terms = shown ?? (await draftTerms(tx, revisionId, await linesOf(tx, { revisionId })));
  const begunHere = new Set(own.map(([lineId]) => lineId).filter((lineId) => working.has(lineId)));
  return ok({
    revisionId,
    repairOrderId,
    number,
    document: shown,
    shownSha256,
    lines: terms.lines,
    orderDiscount: terms.orderDiscount,
    packages: terms.packages,
    policy: shown === null ? await pricingPolicy(tx) : shown.policy,
    standing: new Map(own),
    begun: begunHere,
    given: givenFor(revisionId, decisions, begunHere, agreedCharges(contingencies)),
    authorisedCents: cents(authorisedCents([...decisions.values()]) + chargedCents(contingencies)),
    contingencies: contingencies.filter((one) => one.revisionId === revisionId),
    contingentCents: openCapsCents(contingencies),
  });
}

/** By what a choice is priced among the lines that are still open to one; lines that have begun are left out. */
export function termsOf(offer: Offer): Omit<ChoiceInput, 'chosen'> {
  return {
    lines: offer.lines.filter(({ id }) => !offer.begun.has(id)),
    given: offer.given,
    policy: offer.policy,
    orderDiscount: offer.orderDiscount,
    packages: offer.packages,
  };
}

/** The price of a choice among the lines that are still open to one. */
export function priceOffer(offer: Offer, chosen: readonly string[]): Result<ChoicePrice> {
  const known = new Set(offer.lines.map(({ id }) => id));
  const unknown = chosen.find((lineId) => !known.has(lineId));
  if (unknown !== undefined)
    return fail('line-not-in-revision', `Line "${unknown}" is not part of this revision.`);
  const priced = priceChoice({
    ...termsOf(offer),
    chosen: chosen.filter((lineId) => !offer.begun.has(lineId)),
  });
  return priced.ok ? priced : pricingFault(priced.fault);
}
