import { fail, ok, type Result } from '#libs/kernel';
import {
  checkTogether,
  chosenAfter,
  isRepeat,
  planDecisions,
  type ContingencyAnswer,
  type GivenAnswer,
  type PlannedContingency,
  type PlannedDecision,
} from '#libs/approval';
import { carriedSteps, type ChoicePrice } from '#libs/estimate';
import type { Tx } from '../../../platform/database/tx.js';
import { holdStay, loadOffer, priceOffer, type Offer } from '../../estimates/index.js';
import { releaseWorkOrder, withdrawWorkOrder, workBegunOnLines } from '../../work-orders/index.js';
import { DecisionRow } from '../data/decision.entity.js';
import { decidedOf } from '../queries/decided.query.js';
import type { DecisionsResponse } from '../dto/approval-link.response.js';
import { relatedLine } from '../data/related-line.js';
import { checkAnswers } from './check-answers.js';
import { contingenciesRepeat, planContingencyAnswers, storeContingencies } from './record-contingencies.js';

/** How a decision reached the shop. */
export interface Way {
  readonly channel: 'link' | 'phone' | 'in-person';
  readonly linkId: string | null;
  readonly recordedBy: string | null;
  /** Of a link: network address, browser, wording. By phone: the number called. */
  readonly proof: Readonly<
    Partial<Record<'address' | 'userAgent' | 'wording' | 'numberCalled' | 'note', string>>
  >;
}

/** What is kept with a decision beside its figures. */
export interface Evidence {
  readonly address?: string;
  readonly userAgent?: string;
  readonly wording?: string;
  readonly numberCalled?: string;
  readonly note?: string;
  readonly because: PlannedDecision['because'];
  /** The lines that were priced together, and the total that was shown for them. */
  readonly chosen: readonly string[];
  readonly chosenTotalCents: number;
  readonly authorisedBeforeCents: number;
  readonly authorisedAfterCents: number;
}

export interface Answers {
  readonly answers: readonly GivenAnswer[];
  readonly contingencies?: readonly ContingencyAnswer[];
  readonly shownSha256: string;
  readonly expectedTotalCents: number;
  readonly decidedBy: string;
}

/** The right figures come with the refusal, so that they can be shown and agreed to. */
function hasChanged(offer: Offer, chosen: readonly string[], price: ChoicePrice): Result<never> {
  return fail(
    'shown-has-changed',
    'The figures are not those that were shown. Look at the new ones and decide again; nothing was recorded.',
    {
      facts: {
        shownSha256: offer.shownSha256,
        expectedTotalCents: price.totals.totalCents,
        chosen,
        lines: price.lines.flatMap((line) =>
          line.chosen ? [{ lineId: line.id, totalCents: line.totalCents }] : [],
        ),
      },
    },
  );
}

/** The offer as it stands until this transaction ends: nobody else decides or clocks on meanwhile. */
async function heldOffer(
  tx: Tx,
  revisionId: string,
): Promise<Result<{ offer: Offer; stay: Result<unknown> }>> {
  const found = await tx.one<{ repairOrderId: string }>(
    'select repair_order_id as "repairOrderId" from revisions where shop_id = $1 and id = $2',
    [tx.shopId, revisionId],
  );
  if (!found) return fail('not-found', 'There is no such revision in this shop.');
  const stay = await holdStay(tx, found.repairOrderId);
  const lines = await tx.rows<{ id: string }>(
    'select id from lines where shop_id = $1 and revision_id = $2',
    [tx.shopId, revisionId],
  );
  const begun = await workBegunOnLines(
    tx,
    lines.map(({ id }) => id),
  );
  const offer = await loadOffer(tx, revisionId, begun);
  return offer.ok ? ok({ offer: offer.value, stay }) : offer;
}

/**
 * Records the answers of one sitting. All approved lines, those approved before included, are priced as one choice; what
 * comes out must be what was shown. A repeat adds nothing; a changed mind is a further decision until work has begun.
 * An approving decision releases its work order in this transaction, so that neither is ever without the other.
 */
export async function recordDecisions(
  tx: Tx,
  revisionId: string,
  given: Answers,
  way: Way,
): Promise<Result<DecisionsResponse>> {
  const held = await heldOffer(tx, revisionId);
  if (!held.ok) return held;
  const { offer, stay } = held.value;
  if (offer.document === null) return fail('revision-not-sent', 'Send the revision first.');
  const answers = given.answers.map((answer) => ({ ...answer, lineId: answer.lineId.toLowerCase() }));
  const contingencies = (given.contingencies ?? []).map(({ contingencyId, agreed }) => ({
    contingencyId: contingencyId.toLowerCase(),
    agreed,
  }));
  const checked = checkAnswers(offer, answers, contingencies);
  if (!checked.ok) return checked;
  const { standing, begun } = offer;
  const isShown = given.shownSha256 === offer.shownSha256;
  if (
    isShown &&
    contingenciesRepeat(offer, contingencies) &&
    isRepeat({ answers, standing, begun, expectedTotalCents: given.expectedTotalCents })
  )
    return ok(await decidedOf(tx, offer.repairOrderId, revisionId, true));
  if (!stay.ok) return stay;

  const chosen = chosenAfter({ answers, standing, begun });
  const price = priceOffer(offer, chosen);
  if (!price.ok) return price;
  const planned = planDecisions({ answers, standing, begun, price: price.value });
  if (!planned.ok) return nameBegun(offer, planned.fault.facts?.['lineIds']);
  const fits = checkTogether({ lines: offer.document.lines.map(relatedLine), chosen, begun });
  if (!fits.ok) return fits;
  const extra = planContingencyAnswers(offer, contingencies, chosen);
  if (!extra.ok) return extra;
  if (!isShown || given.expectedTotalCents !== price.value.totals.totalCents)
    return hasChanged(offer, chosen, price.value);
  const stored = await store(tx, offer, planned.value, { given, way, chosen, price: price.value });
  if (!stored.ok) return stored;
  await storeContingencies(tx, offer, extra.value, { given, way });
  return ok(await decidedOf(tx, offer.repairOrderId, revisionId, isNothing(planned.value, extra.value)));
}

const isNothing = (planned: readonly PlannedDecision[], extra: readonly PlannedContingency[]): boolean =>
  planned.length + extra.length === 0;

function nameBegun(offer: Offer, lineIds: unknown): Result<never> {
  const late = (offer.document?.lines ?? []).filter(
    ({ id }) => Array.isArray(lineIds) && lineIds.includes(id),
  );
  const names = late.map(({ title }) => `"${title}"`).join(', ');
  return fail(
    'work-already-begun',
    `Work on ${names} has begun, so that answer can no longer be changed here. Please call the shop. Nothing was recorded.`,
    { facts: { lines: late.map(({ id, title }) => ({ lineId: id, title })) } },
  );
}

interface Sitting {
  readonly given: Answers;
  readonly way: Way;
  readonly chosen: readonly string[];
  readonly price: ChoicePrice;
}

/** What the figures of an approved line do not show and the price of what comes next depends on. */
function takenOff(
  price: ChoicePrice,
  lineId: string,
  answer: string,
): Pick<DecisionRow, 'shownDiscountCents' | 'shownOrderDiscountCents' | 'shownSuppliesBaseCents'> {
  const line = price.lines.find(({ id }) => id === lineId);
  return answer === 'approved' && line?.chosen === true
    ? {
        shownDiscountCents: line.discountCents,
        shownOrderDiscountCents: line.orderDiscountCents,
        shownSuppliesBaseCents: line.suppliesBaseCents,
      }
    : { shownDiscountCents: null, shownOrderDiscountCents: null, shownSuppliesBaseCents: null };
}

async function store(
  tx: Tx,
  offer: Offer,
  planned: readonly PlannedDecision[],
  sitting: Sitting,
): Promise<Result<void>> {
  const { given, way, chosen, price } = sitting;
  const carried = carriedSteps(offer.lines, chosen, offer.given, offer.packages);
  const gain = planned.reduce((sum, { lineId, answer, shown }) => {
    const before = offer.standing.get(lineId);
    const agreed = before?.answer === 'approved' ? before.shownTotalCents : 0;
    return sum + (answer === 'approved' ? shown.shownTotalCents : 0) - agreed;
  }, 0);
  for (const { lineId, answer, shown, lookAgainOn, because, floor } of planned) {
    const decisionId = tx.newId();
    await tx.em.insert(DecisionRow, {
      shopId: tx.shopId,
      id: decisionId,
      repairOrderId: offer.repairOrderId,
      revisionId: offer.revisionId,
      lineId,
      sequence: (offer.standing.get(lineId)?.sequence ?? 0) + 1,
      answer,
      ...shown,
      ...takenOff(price, lineId, answer),
      shownSteps: answer === 'approved' ? (carried.get(lineId) ?? []) : undefined,
      shownSha256: given.shownSha256,
      decidedAt: tx.now,
      channel: way.channel,
      linkId: way.linkId,
      decidedBy: given.decidedBy,
      recordedBy: way.recordedBy,
      lookAgainOn,
      evidence: {
        ...way.proof,
        because,
        chosen,
        chosenTotalCents: price.totals.totalCents,
        authorisedBeforeCents: offer.authorisedCents,
        authorisedAfterCents: offer.authorisedCents + gain,
      } satisfies Evidence,
    });
    const moved = await onTheFloor(tx, floor, { lineId, repairOrderId: offer.repairOrderId, decisionId });
    if (!moved.ok) return moved;
    await tx.audit(`decision.${answer}`, 'decision', decisionId, { lineId, channel: way.channel, because });
    tx.announce('decision', { decisionId, lineId, repairOrderId: offer.repairOrderId });
  }
  return ok(undefined);
}

async function onTheFloor(
  tx: Tx,
  floor: PlannedDecision['floor'],
  line: { lineId: string; repairOrderId: string; decisionId: string },
): Promise<Result<void>> {
  if (floor === 'withdraw') return withdrawWorkOrder(tx, line.lineId);
  if (floor === 'nothing') return ok(undefined);
  const released = await releaseWorkOrder(tx, line);
  return released.ok ? ok(undefined) : released;
}
