import { fail, ok, type FieldFault, type Result } from '#libs/kernel';
import { chosenAfter, isRepeat, planDecisions, type GivenAnswer, type PlannedDecision } from '#libs/approval';
import { carriedSteps, type ChoicePrice } from '#libs/estimate';
import type { Tx } from '../../../platform/database/tx.js';
import { holdStay, loadOffer, priceOffer, type Offer } from '../../estimates/index.js';
import { releaseWorkOrder, withdrawWorkOrder, workBegunOnLines } from '../../work-orders/index.js';
import { DecisionRow } from '../data/decision.entity.js';
import { decidedOf } from '../queries/decided.query.js';
import type { DecisionsResponse } from '../dto/approval-link.response.js';

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
  readonly shownSha256: string;
  readonly expectedTotalCents: number;
  readonly decidedBy: string;
}

/** An answer for every line at most once, and only for lines that were shown. */
function checkAnswers(offer: Offer, answers: readonly GivenAnswer[]): Result<void> {
  if (answers.length === 0)
    return fail('request-invalid', 'Answer at least one line.', {
      fields: [{ pointer: '/answers', detail: 'Answer at least one line.' }],
    });
  const known = new Set(offer.lines.map(({ id }) => id));
  const at = (index: number, field: string): string => `/answers/${index}/${field}`;
  const stray = answers.flatMap(({ lineId }, index): FieldFault[] =>
    known.has(lineId) ? [] : [{ pointer: at(index, 'lineId'), detail: 'This line was not shown here.' }],
  );
  if (stray.length > 0)
    return fail('line-not-in-revision', 'Some of these lines are not part of the revision.', {
      fields: stray,
    });
  const fields = answers.flatMap(({ lineId, answer, lookAgainOn }, index): FieldFault[] => [
    ...(answers.findIndex((other) => other.lineId === lineId) === index
      ? []
      : [{ pointer: at(index, 'lineId'), detail: 'This line is answered twice.' }]),
    ...(lookAgainOn != null && answer !== 'deferred'
      ? [{ pointer: at(index, 'lookAgainOn'), detail: 'Only a deferred line has a day to look again.' }]
      : []),
  ]);
  return fields.length === 0 ? ok(undefined) : fail('request-invalid', 'Look at the answers.', { fields });
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
  const checked = checkAnswers(offer, answers);
  if (!checked.ok) return checked;
  const { standing, begun } = offer;
  const isShown = given.shownSha256 === offer.shownSha256;
  if (isShown && isRepeat({ answers, standing, begun, expectedTotalCents: given.expectedTotalCents }))
    return ok(await decidedOf(tx, offer.repairOrderId, revisionId, true));
  if (!stay.ok) return stay;

  const chosen = chosenAfter({ answers, standing, begun });
  const price = priceOffer(offer, chosen);
  if (!price.ok) return price;
  const planned = planDecisions({ answers, standing, begun, price: price.value });
  if (!planned.ok) return nameBegun(offer, planned.fault.facts?.['lineIds']);
  if (!isShown || given.expectedTotalCents !== price.value.totals.totalCents)
    return hasChanged(offer, chosen, price.value);
  const stored = await store(tx, offer, planned.value, { given, way, chosen, price: price.value });
  if (!stored.ok) return stored;
  return ok(await decidedOf(tx, offer.repairOrderId, revisionId, planned.value.length === 0));
}

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

async function store(
  tx: Tx,
  offer: Offer,
  planned: readonly PlannedDecision[],
  sitting: Sitting,
): Promise<Result<void>> {
  const { given, way, chosen, price } = sitting;
  const carried = carriedSteps(offer.lines, chosen, offer.given);
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
