import { LINES, UNDER_WAY } from '../scenario.js';
import { clocked, expectThat, hours, type Cast, type Tell } from '../story.js';
import type { Stay } from './drop-off.js';

export interface WorkOrder {
  readonly id: string;
  readonly number: number;
  readonly title: string;
  readonly state: string;
  readonly bookHundredths: number;
  readonly clockedSeconds: number;
  readonly canStart: boolean;
  readonly holds: readonly { readonly kind: string; readonly detail: string }[];
  readonly repairOrderId: string;
  readonly earlier: readonly { readonly id: string }[];
  readonly version: number;
}

interface PartNeed {
  readonly lineItemId: string;
  readonly kind: string;
  readonly neededHundredths: number;
  readonly receivedHundredths: number;
}

export async function workOrders(cast: Cast, stay: Stay): Promise<WorkOrder[]> {
  const all: WorkOrder[] = [];
  let cursor = '';
  do {
    const page = await cast.frontDesk.get<{ items: WorkOrder[]; nextCursor: string | null }>(
      `/work-orders?limit=200${cursor}`,
    );
    all.push(...page.items.filter((w) => w.repairOrderId === stay.repairOrderId));
    cursor = page.nextCursor === null ? '' : `&cursor=${encodeURIComponent(page.nextCursor)}`;
  } while (cursor !== '');
  return all.sort((a, b) => a.number - b.number);
}

const byTitle = (all: readonly WorkOrder[], title: string): WorkOrder => {
  const found = all.find((w) => w.title === title);
  if (!found) throw new Error(`the story does not hold: "${title}" is a work order`);
  return found;
};

/** What must be done first is said by the desk; the rest of the holds is computed. */
export async function prepareFloor(cast: Cast, stay: Stay, tell: Tell): Promise<number> {
  for (const line of LINES)
    for (const title of line.after ?? []) await putBefore(cast, stay, title, line.title);
  const before = await workOrders(cast, stay);
  const held = (await workOrders(cast, stay)).flatMap((w) =>
    w.holds.map((h) => ({ ...h, number: w.number })),
  );
  expectThat(
    held.some((h) => h.kind === 'parts'),
    'work that needs parts waits for them',
  );
  expectThat(
    held.some((h) => h.kind === 'earlier-work-order'),
    'the alignment waits for the joints',
  );
  const kinds = [...new Set(held.map((h) => h.kind))].join(', ');
  tell(
    cast.frontDesk.who,
    `sees ${before.length} work orders released and ${held.length} holds, none of them typed by anybody (${kinds}). First: ${held[0]?.detail ?? ''}`,
    { workOrders: before.length, holds: held.length },
  );
  await receiveParts(cast, stay, tell);
  return held.length;
}

/** One work order waits for another of the same stay, beside what it waits for already. */
export async function putBefore(cast: Cast, stay: Stay, earlier: string, later: string): Promise<void> {
  const all = await workOrders(cast, stay);
  const target = byTitle(all, later);
  const earlierIds = [...new Set([...target.earlier.map((e) => e.id), byTitle(all, earlier).id])];
  await cast.frontDesk.put(
    `/work-orders/${target.id}/earlier`,
    { earlierIds },
    { 'if-match': `"${target.version}"` },
  );
}

export async function receiveParts(cast: Cast, stay: Stay, tell: Tell): Promise<void> {
  const { items } = await cast.frontDesk.get<{ items: PartNeed[] }>(
    `/repair-orders/${stay.repairOrderId}/part-needs`,
  );
  const open = items.filter((n) => n.neededHundredths > n.receivedHundredths);
  for (const need of open)
    await cast.frontDesk.post(`/line-items/${need.lineItemId}/receipts`, {
      quantityHundredths: need.neededHundredths - need.receivedHundredths,
    });
  tell(cast.frontDesk.who, `books in ${open.length} part deliveries.`, { deliveries: open.length });
}

/** Two technicians reach for the same work order; one gets it and the other is told who. */
export async function raceForOne(cast: Cast, stay: Stay, tell: Tell): Promise<void> {
  const first = byTitle(await workOrders(cast, stay), 'Front brake pads and discs');
  await cast.technician.post(`/work-orders/${first.id}/claims`);
  const late = await cast.secondTechnician.refusal(
    cast.secondTechnician.post(`/work-orders/${first.id}/claims`),
  );
  expectThat(late.code === 'work-order-claimed', 'a work order has one holder');
  tell(cast.secondTechnician.who, `reaches for work order ${first.number} too late: ${late.detail}`);
}

export interface FoundMore {
  (workOrder: WorkOrder): Promise<void>;
}

/** Every work order: claim, clock on, work, finish, and a check by somebody else. */
export async function doTheWork(cast: Cast, stay: Stay, tell: Tell, foundMore: FoundMore): Promise<void> {
  const done = new Set<string>();
  for (;;) {
    const all = await workOrders(cast, stay);
    const next = all.find(
      (w) =>
        !done.has(w.id) &&
        !w.holds.some((h) => !['bay', 'technician'].includes(h.kind)) &&
        w.state !== 'checked',
    );
    if (!next) {
      const left = all.filter((w) => w.state !== 'checked');
      if (left.length === 0) return;
      throw new Error(
        `the story does not hold: work is left that cannot start: ${left.map((w) => `${w.title} (${w.holds.map((h) => h.detail).join('; ')})`).join(', ')}`,
      );
    }
    done.add(next.id);
    await workOn(cast, next, tell, foundMore);
  }
}

async function workOn(cast: Cast, order: WorkOrder, tell: Tell, foundMore: FoundMore): Promise<void> {
  const { technician, secondTechnician } = cast;
  const alreadyHeld = order.state === 'claimed';
  if (!alreadyHeld) await technician.post(`/work-orders/${order.id}/claims`);
  await technician.post('/clock/on', { workOrderId: order.id });
  if (order.title === UNDER_WAY.during) {
    await pause(cast, 6);
    await foundMore(order);
  }
  // Roughly the book, a little over on the first and under on the others; only the clock knows.
  await pause(cast, order.bookHundredths * 0.6 * (alreadyHeld ? 1.15 : 0.9));
  await technician.post(`/work-orders/${order.id}/finish`);
  await secondTechnician.post(`/work-orders/${order.id}/check`, { passed: true });
  const after = await technician.get<WorkOrder>(`/work-orders/${order.id}`);
  expectThat(after.state === 'checked', `${order.title} is checked`);
  tell(
    technician.who,
    `works order ${order.number}, ${order.title.toLowerCase()}: book ${hours(order.bookHundredths)}, clocked ${clocked(after.clockedSeconds)}. ${secondTechnician.who} checks it.`,
  );
}

/** On an ordinary clock nobody waits for a tour to work hours: each entry then has a second. */
const ORDINARY_CLOCK_MS = 1100;

/** Shop minutes pass; at least long enough for an entry to have a length. */
export async function pause(cast: Cast, minutes: number): Promise<void> {
  const ms = cast.minuteMs >= 1000 ? ORDINARY_CLOCK_MS : Math.max(30, minutes * cast.minuteMs);
  await new Promise((resolve) => setTimeout(resolve, ms));
}
