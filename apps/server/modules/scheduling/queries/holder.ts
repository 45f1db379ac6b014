import { DateTime } from 'luxon';

/** What is planned already at a time: what the one who comes second is told. */
export interface Holder {
  /** Null where the place is kept for a reservation. */
  readonly workOrderNumber: number | null;
  readonly reservation?: HoldingReservation;
  readonly startsAt: string;
  readonly endsAt: string;
}

export interface HoldingReservation {
  readonly number: number;
  /** Who made it. */
  readonly by: string;
  /** Until when it is held for somebody on the phone; null once it is taken. */
  readonly until: string | null;
}

export interface HolderRow {
  readonly workOrderNumber: number | null;
  readonly reservation: HoldingReservation | null;
  readonly startsAt: Date;
  readonly endsAt: Date;
}

/** Columns and joins of an assignment `a` that say whose place it is. */
export const HOLDER_COLUMNS = `w.number as "workOrderNumber",
  case when r.id is not null then jsonb_build_object('number', r.number, 'by', maker.display_name, 'until', r.expires_at) end
    as reservation`;
export const HOLDER_JOINS = `
  left join work_orders w on w.shop_id = a.shop_id and w.id = a.work_order_id
  left join reservation_operations reserved on reserved.shop_id = a.shop_id and reserved.id = a.reservation_operation_id
  left join reservations r on r.shop_id = a.shop_id and r.id = reserved.reservation_id
  left join staff maker on maker.shop_id = a.shop_id and maker.id = r.made_by`;

export type WithHolder<Row extends HolderRow> = Omit<Row, 'reservation' | 'startsAt' | 'endsAt'> & Holder;

export function holderOf<Row extends HolderRow>(row: Row): WithHolder<Row> {
  const { reservation, startsAt, endsAt, ...rest } = row;
  return {
    ...rest,
    workOrderNumber: row.workOrderNumber,
    ...(reservation === null ? {} : { reservation }),
    startsAt: startsAt.toISOString(),
    endsAt: endsAt.toISOString(),
  };
}

/** Only what the one who comes second may know. */
export const holderFacts = ({
  workOrderNumber,
  reservation,
  startsAt,
  endsAt,
}: Holder): { holder: Holder } => ({
  holder: {
    workOrderNumber,
    ...(reservation === undefined ? {} : { reservation }),
    ...{ startsAt, endsAt },
  },
});

/** What holds the place, after "The bay is …": with the remedy where there is one. */
export function heldWords({ reservation, workOrderNumber }: Holder, zone: string): string {
  if (reservation === undefined) return `taken by work order ${workOrderNumber ?? ''} at that time.`;
  if (reservation.until === null)
    return `kept for reservation ${reservation.number} at that time, made by ${reservation.by}.`;
  const until = DateTime.fromISO(reservation.until, { zone }).toFormat('HH:mm');
  return `reserved until ${until} by ${reservation.by}. Ask again: there may be another place.`;
}
