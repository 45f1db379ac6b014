import type { OfferedLine, SetsQuestion } from '#libs/choice';
import { cents, fail, ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import { benefitWeights } from '../../identity/index.js';
import { choiceOfFrozen, choiceOfLine } from '../data/line-choice.js';
import { linesOf } from './lines.query.js';
import { loadOffer, termsOf, type Offer } from './offer.query.js';

/** A line as it is chosen: its weight and relations, and the words for them. */
export interface LineToChoose extends OfferedLine {
  readonly title: string;
  readonly why: string;
}

/** An offer with what choosing within a budget needs beside its prices. */
export interface OfferToChoose {
  readonly offer: Offer;
  readonly lines: readonly LineToChoose[];
  readonly currency: string;
  readonly vehicleValueCents: number | null;
}

/** The lines of a revision that was sent, as they were frozen. */
export function linesToChoose({ document }: Pick<Offer, 'document'>): LineToChoose[] {
  return (document?.lines ?? []).map((line) => ({
    id: line.id,
    title: line.title,
    ...choiceOfFrozen(line),
  }));
}

/** Lines of this revision that are agreed to, those that have begun included. */
export function agreedLines(offer: Offer): string[] {
  return offer.lines.flatMap(({ id }) => (offer.standing.get(id)?.answer === 'approved' ? [id] : []));
}

/** What the computation is asked, as plain data. */
export function setsQuestion(
  offer: Offer,
  lines: readonly LineToChoose[],
  asked: { readonly budgetCents: number | null; readonly notToBeDriven: boolean },
): SetsQuestion {
  return {
    lines: lines.map(({ id, benefit, mustInclude, requires, excludes }) => ({
      ...{ id, benefit, mustInclude, requires, excludes },
    })),
    terms: termsOf(offer),
    approved: agreedLines(offer),
    budgetCents: asked.budgetCents === null ? null : cents(asked.budgetCents),
    notToBeDriven: asked.notToBeDriven,
  };
}

interface HeadRow {
  readonly currency: string;
  readonly vehicleValueCents: number | null;
  readonly revisionId: string | null;
}

/** The draft is the latest revision where there is one. */
async function headOf(
  tx: Tx,
  repairOrderId: string,
  revisionId: string | undefined,
): Promise<HeadRow | undefined> {
  return tx.one<HeadRow>(
    `select s.currency, v.value_cents as "vehicleValueCents",
        (select n.id from revisions n where n.shop_id = r.shop_id and n.repair_order_id = r.id
            and ($3::uuid is null or n.id = $3) order by n.number desc limit 1) as "revisionId"
       from repair_orders r join shops s on s.shop_id = r.shop_id
       join vehicles v on v.shop_id = r.shop_id and v.id = r.vehicle_id
      where r.shop_id = $1 and r.id = $2`,
    [tx.shopId, repairOrderId, revisionId ?? null],
  );
}

export async function offerToChoose(
  tx: Tx,
  repairOrderId: string,
  revisionId: string | undefined,
): Promise<Result<OfferToChoose>> {
  const head = await headOf(tx, repairOrderId, revisionId);
  if (!head) return fail('not-found', 'There is no such repair order in this shop.');
  if (head.revisionId === null)
    return fail(
      'not-found',
      revisionId === undefined
        ? 'There is no estimate on this repair order yet. Add a line first.'
        : 'There is no such revision on this repair order.',
      revisionId === undefined
        ? {}
        : { fields: [{ pointer: '/revisionId', detail: 'Name a revision of this repair order.' }] },
    );
  const offer = await loadOffer(tx, head.revisionId);
  if (!offer.ok) return offer;
  return ok({
    offer: offer.value,
    lines: offer.value.document === null ? await draftLines(tx, head.revisionId) : linesToChoose(offer.value),
    currency: head.currency,
    vehicleValueCents: head.vehicleValueCents,
  });
}

async function draftLines(tx: Tx, revisionId: string): Promise<LineToChoose[]> {
  const weights = await benefitWeights(tx);
  const lines = await linesOf(tx, { revisionId });
  return lines.map((line) => ({ id: line.id, title: line.title, ...choiceOfLine(line, weights) }));
}
