import { clocked, expectEqual, expectThat, hours, money, type Cast, type Tell } from '../story.js';
import type { Stay } from './drop-off.js';
import { workOrders } from './floor.js';

interface Compared {
  readonly soldHundredths: number;
  readonly clockedSeconds: number;
}

interface Review {
  readonly lines: readonly {
    readonly title: string;
    readonly totalCents: number;
    readonly comparison: Compared;
  }[];
  readonly total: Compared;
  readonly authorisedCents: number;
  readonly invoiceableCents: number;
  readonly everythingDone: boolean;
}

export interface Reviewed {
  readonly workOrders: number;
  readonly bookHundredths: number;
  readonly clockedSeconds: number;
  readonly invoiceableCents: number;
}

const ODOMETER_OUT = { reading: 218_437, unit: 'km' } as const;

/** The manager lays clocked against sold hours, and the sums of every view must be the same. */
export async function review(cast: Cast, stay: Stay, approvedCents: number, tell: Tell): Promise<Reviewed> {
  const { manager } = cast;
  const seen = await manager.get<Review>(`/review/repair-orders/${stay.repairOrderId}`);
  const orders = await workOrders(cast, stay);
  const sum = (pick: (w: (typeof orders)[number]) => number): number =>
    orders.reduce((total, w) => total + pick(w), 0);
  expectEqual(
    seen.total.soldHundredths,
    sum((w) => w.bookHundredths),
    'sold hours of the review and of the work orders',
  );
  expectEqual(
    seen.total.clockedSeconds,
    sum((w) => w.clockedSeconds),
    'clocked seconds of the review and of the work orders',
  );
  expectEqual(seen.invoiceableCents, approvedCents, 'what can be invoiced and what the owner agreed to');
  expectEqual(
    seen.lines.reduce((t, l) => t + l.totalCents, 0),
    seen.invoiceableCents,
    'the lines of the review and its total',
  );
  expectThat(seen.everythingDone, 'everything that was agreed is done');
  const estimate = await manager.get<{ authorisedCents: number }>(
    `/repair-orders/${stay.repairOrderId}/estimate`,
  );
  expectEqual(estimate.authorisedCents, approvedCents, 'the authorised amount and the sum of the answers');
  const difference = seen.total.soldHundredths * 36 - seen.total.clockedSeconds;
  tell(
    manager.who,
    `reviews the repair: sold ${hours(seen.total.soldHundredths)}, clocked ${clocked(seen.total.clockedSeconds)}, ${clocked(Math.abs(difference))} ${difference >= 0 ? 'under' : 'over'} the book. To invoice: ${money(seen.invoiceableCents)}, to the cent what the owner agreed to.`,
    {
      bookHundredths: seen.total.soldHundredths,
      clockedSeconds: seen.total.clockedSeconds,
      invoiceableCents: seen.invoiceableCents,
    },
  );
  await cast.frontDesk.post(`/repair-orders/${stay.repairOrderId}/pick-up`, { odometer: ODOMETER_OUT });
  tell(
    cast.frontDesk.who,
    `hands the car back at ${ODOMETER_OUT.reading.toLocaleString('en-US')} ${ODOMETER_OUT.unit}.`,
  );
  return {
    workOrders: orders.length,
    bookHundredths: seen.total.soldHundredths,
    clockedSeconds: seen.total.clockedSeconds,
    invoiceableCents: seen.invoiceableCents,
  };
}
