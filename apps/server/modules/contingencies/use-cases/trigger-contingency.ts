import { can } from '#libs/access';
import { fail, ok, type Result } from '#libs/kernel';
import { mayTrigger } from '#libs/approval';
import { contingencyCharge, type ContingencyCharge } from '#libs/estimate';
import type { Tx } from '../../../platform/database/tx.js';
import {
  contingenciesOf,
  everythingAgreed,
  frozenContingency,
  holdStay,
  loadOffer,
  triggerResponse,
  type ContingencyFacts,
  type Offer,
} from '../../estimates/index.js';
import { takeWorkOrderInHand, type WorkOrderInHand } from '../../work-orders/index.js';
import { ContingencyTriggerRow } from '../data/contingency-trigger.entity.js';
import type { TriggerContingencyRequest } from '../dto/trigger.request.js';
import type { TriggeredContingencyResponse } from '../dto/trigger.response.js';
import { whatWasUsed, type WhatWasUsed } from './what-was-used.js';

const UNKNOWN = 'There is no such contingency in this shop.';

/** Everything that decides whether it may be charged, held until the transaction ends. */
interface Held {
  readonly offer: Offer;
  readonly contingency: ContingencyFacts;
  /** Undefined where the line has none that is open. */
  readonly work: WorkOrderInHand | undefined;
}

/**
 * In the order in which answers take their locks: the stay, then the work order. So that of a changed mind and a trigger
 * one comes first and the other sees it.
 */
async function hold(tx: Tx, contingencyId: string): Promise<Result<Held>> {
  const found = await tx.one<{ repairOrderId: string; revisionId: string; lineId: string }>(
    `select l.repair_order_id as "repairOrderId", l.revision_id as "revisionId", l.id as "lineId"
       from contingencies c join lines l on l.shop_id = c.shop_id and l.id = c.line_id
      where c.shop_id = $1 and c.id = $2`,
    [tx.shopId, contingencyId],
  );
  if (!found) return fail('not-found', UNKNOWN);
  const stay = await holdStay(tx, found.repairOrderId);
  if (!stay.ok) return stay;
  const open = await tx.one<{ id: string }>(
    'select id from work_orders where shop_id = $1 and line_id = $2 and withdrawn_at is null',
    [tx.shopId, found.lineId],
  );
  const work = open && (await takeWorkOrderInHand(tx, open.id));
  if (work && !work.ok) return work;
  const offer = await loadOffer(tx, found.revisionId);
  if (!offer.ok) return offer;
  const contingency = offer.value.contingencies.find(({ id }) => id === contingencyId);
  if (!contingency) return fail('not-found', UNKNOWN);
  return ok({ offer: offer.value, contingency, work: work?.value });
}

function mayTell(tx: Tx, { offer, contingency, work }: Held, mayForOthers: boolean): Result<void> {
  const { lineId } = contingency;
  const claim = work?.row.claim ?? null;
  const allowed = mayTrigger({
    what: contingency.what,
    agreed: contingency.answer?.agreed ?? null,
    triggered: contingency.trigger !== null,
    lineApproved: offer.standing.get(lineId)?.answer === 'approved' && work !== undefined,
    workBegun: offer.begun.has(lineId),
    workChecked: work !== undefined && work.row.checkedAt !== null,
    heldBy: claim === null ? 'nobody' : claim.technicianId === tx.staffId ? 'this-person' : 'somebody-else',
    mayForOthers,
  });
  if (allowed.ok) return allowed;
  const { code, detail } = allowed.fault;
  const holder = claim && { holder: { id: claim.technicianId, displayName: claim.displayName } };
  const facts = { contingencyId: contingency.id, ...(code === 'work-order-not-held' ? holder : null) };
  return fail(code, detail, { facts });
}

async function charge(
  tx: Tx,
  { offer, contingency }: Held,
  { hundredths, items }: WhatWasUsed,
): Promise<Result<ContingencyCharge>> {
  const line = offer.lines.find(({ id }) => id === contingency.lineId);
  if (!line) return fail('not-found', UNKNOWN);
  const { id, capCents } = frozenContingency(contingency);
  const given = await everythingAgreed(tx, offer.repairOrderId);
  const charged = contingencyCharge({ id, line, hundredths, items, capCents, given, policy: offer.policy });
  if (charged.ok) return charged;
  return fail('request-invalid', charged.fault.detail, { fields: charged.fault.fields ?? [] });
}

/**
 * It has happened: charged now, once, and never above the cap that the owner agreed to. The reason and a photo of it
 * are kept with the charge, the work order's book hours grow by its hours, and the owner's page shows all of it.
 */
export async function triggerContingency(
  tx: Tx,
  contingencyId: string,
  request: TriggerContingencyRequest,
): Promise<Result<TriggeredContingencyResponse>> {
  const held = await hold(tx, contingencyId);
  if (!held.ok) return held;
  const mayForOthers = tx.actor.kind === 'staff' && can(tx.actor.roles, 'decision.record-for-owner');
  const allowed = mayTell(tx, held.value, mayForOthers);
  if (!allowed.ok) return allowed;
  const photo = await tx.one('select 1 from photos where shop_id = $1 and id = $2 and contingency_id = $3', [
    tx.shopId,
    request.photoId,
    contingencyId,
  ]);
  if (!photo)
    return fail('request-invalid', 'Put a photo of it to the contingency first.', {
      fields: [{ pointer: '/photoId', detail: 'This contingency has no such photo.' }],
    });
  const used = whatWasUsed(frozenContingency(held.value.contingency), request, mayForOthers);
  if (!used.ok) return used;
  const charged = await charge(tx, held.value, used.value);
  if (!charged.ok) return charged;
  await store(tx, held.value, request, used.value, charged.value);
  return told(tx, held.value, charged.value);
}

async function store(
  tx: Tx,
  { offer, contingency, work }: Held,
  { reason, photoId }: TriggerContingencyRequest,
  { hundredths, items }: WhatWasUsed,
  { figures, uncappedCents, suppliesBaseCents, breakdown }: ContingencyCharge,
): Promise<void> {
  const workOrderId = work?.row.id ?? '';
  const { repairOrderId } = offer;
  const { lineId, answer, capCents } = contingency;
  await tx.em.insert(ContingencyTriggerRow, {
    shopId: tx.shopId,
    id: tx.newId(),
    repairOrderId,
    lineId,
    workOrderId,
    contingencyId: contingency.id,
    agreementId: answer?.id ?? '',
    agreed: true,
    capCents,
    reason,
    photoId,
    hundredths,
    items: [...items],
    labourCents: figures.labourCents,
    partsCents: figures.partsCents,
    coreCents: figures.coreCents,
    suppliesCents: figures.suppliesCents,
    taxCents: figures.taxCents,
    totalCents: figures.totalCents,
    taxes: [...figures.taxes],
    uncappedCents,
    suppliesBaseCents,
    breakdown,
    triggeredAt: tx.now,
    triggeredBy: tx.staffId,
  });
  await tx.em.query(
    `update work_orders set book_hundredths = book_hundredths + $3, version = version + 1
      where shop_id = $1 and id = $2`,
    [tx.shopId, workOrderId, hundredths],
  );
  const { totalCents } = figures;
  await tx.audit('contingency.trigger', 'contingency', contingency.id, {
    lineId,
    workOrderId,
    reason,
    totalCents,
    capCents,
  });
  tx.announce('work-order', { workOrderId, repairOrderId });
  tx.announce('decision', { contingencyId: contingency.id, lineId, repairOrderId });
}

async function told(
  tx: Tx,
  { offer, contingency, work }: Held,
  { breakdown }: ContingencyCharge,
): Promise<Result<TriggeredContingencyResponse>> {
  const { lineId } = contingency;
  const now = (await contingenciesOf(tx, { lineId })).find(({ id }) => id === contingency.id);
  const after = await loadOffer(tx, offer.revisionId);
  if (!after.ok) return after;
  if (!now?.trigger || !work) throw new Error('it was just recorded');
  return ok({
    contingencyId: contingency.id,
    lineId,
    repairOrderId: offer.repairOrderId,
    workOrderId: work.row.id,
    what: contingency.what,
    capCents: contingency.capCents,
    trigger: triggerResponse(now.trigger),
    breakdown,
    bookHundredths: work.row.bookHundredths + now.trigger.hundredths,
    authorisedCents: after.value.authorisedCents,
    contingentCents: after.value.contingentCents,
  });
}
