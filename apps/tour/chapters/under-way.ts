import { ALIGNMENT, UNDER_WAY } from '../scenario.js';
import { expectThat, money, type Cast, type Tell } from '../story.js';
import type { Stay } from './drop-off.js';
import { addLine, send, type Sent } from './estimate.js';
import { putBefore, receiveParts, type WorkOrder } from './floor.js';
import { decide } from './owner.js';

/** Something else turns up with the joint split: pause, a further revision, the owner's answer, and on. */
export async function foundUnderWay(
  cast: Cast,
  stay: Stay,
  during: WorkOrder,
  tell: Tell,
): Promise<{ sent: Sent; approvedCents: number }> {
  const { technician } = cast;
  const finding = await technician.post<{ id: string }>(`/repair-orders/${stay.repairOrderId}/findings`, {
    workOrderId: during.id,
    title: UNDER_WAY.title,
    verdict: 'repair',
    mayDrive: 'no',
    explanation: UNDER_WAY.explanation,
    consequence: UNDER_WAY.consequence,
  });
  tell(technician.who, `finds something else on order ${during.number}: ${UNDER_WAY.title.toLowerCase()}.`);
  await technician.post('/clock/pause', { reason: 'further finding, the owner is asked' });
  await addLine(cast, stay, UNDER_WAY.line, new Map(), [finding.id]);
  const { asSent, revision } = await send(cast, stay);
  const lineId = asSent.lines.get(UNDER_WAY.line.title) ?? '';
  const refused = await technician.refusal(technician.post('/clock/on', { lineId }));
  expectThat(refused.code === 'work-not-authorised', 'nobody clocks work that the owner has not agreed to');
  tell(
    cast.frontDesk.who,
    `sends revision ${revision.number} with only that line: ${money(asSent.totalCents)}. Clocking on it now is refused: ${refused.detail}`,
    { sentCents: asSent.totalCents },
  );
  const approvedCents = await decide(cast, asSent, [UNDER_WAY.line], tell);
  await receiveParts(cast, stay, tell);
  await putBefore(cast, stay, UNDER_WAY.line.title, ALIGNMENT);
  await technician.post('/clock/on', { workOrderId: during.id });
  return { sent: asSent, approvedCents };
}
