import { cents, fail, ok, type Cents, type Result } from '#libs/kernel';
import { authorisedCents } from '#libs/approval';
import {
  agreedFrom,
  priceChoice,
  type AlreadyAgreed,
  type ChoicePrice,
  type EstimateLine,
  type FrozenRevision,
  type PricingPolicy,
} from '#libs/estimate';
import type { Tx } from '../../../platform/database/tx.js';
import { estimateLine } from '../data/line.mapping.js';
import { pricingFault } from '../data/pricing-fault.js';
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
  /** Of the lines of this revision. */
  readonly standing: ReadonlyMap<string, LatestDecision>;
  /** Approved lines of this revision on which work has begun: fixed, and outside every further choice. */
  readonly begun: ReadonlySet<string>;
  /** What is agreed to elsewhere: in other revisions, and by the lines that have begun. */
  readonly given: AlreadyAgreed;
  /** Over the whole repair order. */
  readonly authorisedCents: Cents;
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

export async function revisionHead(tx: Tx, revisionId: string): Promise<Result<RevisionHead>> {
  const row = await tx.one<RevisionHead>(
    `select ${HEAD_COLUMNS} from revisions v where v.shop_id = $1 and v.id = $2`,
    [tx.shopId, revisionId],
  );
  return row ? ok(row) : fail('not-found', 'There is no such revision in this shop.');
}

/** Splits what was decided into this revision's own and what is agreed to outside its further choices. */
export function givenFor(
  revisionId: string,
  decisions: ReadonlyMap<string, LatestDecision>,
  begun: ReadonlySet<string>,
): AlreadyAgreed {
  const fixed = [...decisions.values()].filter(
    ({ answer, lineId, revisionId: own }) =>
      answer === 'approved' && (own !== revisionId || begun.has(lineId)),
  );
  return agreedFrom(fixed.map(({ agreed }) => agreed));
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
  const own = [...decisions].filter(([, decision]) => decision.revisionId === revisionId);
  const working = begun ?? (await begunLines(tx, repairOrderId));
  const begunHere = new Set(own.map(([lineId]) => lineId).filter((lineId) => working.has(lineId)));
  return ok({
    revisionId,
    repairOrderId,
    number,
    document: shown,
    shownSha256,
    lines: shown === null ? (await linesOf(tx, { revisionId })).map(estimateLine) : shown.lines,
    policy: shown === null ? await pricingPolicy(tx) : shown.policy,
    standing: new Map(own),
    begun: begunHere,
    given: givenFor(revisionId, decisions, begunHere),
    authorisedCents: cents(authorisedCents([...decisions.values()])),
  });
}

/** The price of a choice among the lines that are still open to one; lines that have begun are left out. */
export function priceOffer(offer: Offer, chosen: readonly string[]): Result<ChoicePrice> {
  const known = new Set(offer.lines.map(({ id }) => id));
  const unknown = chosen.find((lineId) => !known.has(lineId));
  if (unknown !== undefined)
    return fail('line-not-in-revision', `Line "${unknown}" is not part of this revision.`);
  const priced = priceChoice({
    lines: offer.lines.filter(({ id }) => !offer.begun.has(id)),
    chosen: chosen.filter((lineId) => !offer.begun.has(lineId)),
    given: offer.given,
    policy: offer.policy,
  });
  return priced.ok ? priced : pricingFault(priced.fault);
}
