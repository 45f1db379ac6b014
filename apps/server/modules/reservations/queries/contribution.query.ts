import type { PlanOperation, PlanPin, PlanRepairOrder } from '#libs/plan';
import type { Tx } from '../../../platform/database/tx.js';
import type { PlanContribution, PlanHorizon, StoredPlace, ToolUnit } from '../../planning/index.js';
import { RESERVATION_IS_OVER } from '../../scheduling/index.js';
import { planOperation, type ReservedOperation } from '../data/plan-order.js';

/**
 * What a minute after the promise counts for a car that was told its time on the phone: the most that a repair order can
 * weigh, so that the plan moves it only within what was told.
 */
const PROMISE_WEIGHT = 1000;

interface StoredOperation extends ReservedOperation {
  readonly place: (Omit<PlaceRow, 'startsAt' | 'endsAt'> & { startsAt: string; endsAt: string }) | null;
}

type PlaceRow = Omit<StoredPlace, 'start' | 'end' | 'workOrderId' | 'bayUntil' | 'tools'> & {
  readonly tools: readonly ToolUnit[];
};

interface Row {
  readonly id: string;
  readonly number: number;
  readonly isTaken: boolean;
  readonly isHere: boolean;
  readonly arrivesAt: Date;
  readonly promisedAt: Date | null;
  readonly readyP80At: Date;
  readonly weightKg: number | null;
  readonly heightMm: number | null;
  readonly operations: readonly StoredOperation[];
}

/** Reservations that still mean something for the plan: not over, and without real work that stands in their place. */
const LIVE = `
select r.id, r.number, r.taken_at is not null as "isTaken", r.repair_order_id is not null as "isHere",
       r.arrives_at as "arrivesAt", r.promised_at as "promisedAt", r.ready_p80_at as "readyP80At", r.weight_kg as "weightKg", r.height_mm as "heightMm",
  (select jsonb_agg(jsonb_build_object('id', o.id, 'title', o.title, 'minutes', o.minutes, 'minutesP80', o.minutes_p80,
      'needsLift', o.needs_lift, 'bayKinds', o.bay_kinds, 'skills', o.skills, 'isAfterPrevious', o.is_after_previous,
      'toolIds', (select coalesce(jsonb_agg(t.tool_id order by t.tool_id), '[]') from reservation_operation_tools t
                   where t.shop_id = $1 and t.reservation_operation_id = o.id),
      'place', case when a.id is not null then jsonb_build_object('assignmentId', a.id, 'version', a.version, 'bayId', a.bay_id,
          'technicianId', a.technician_id, 'startsAt', a.starts_at, 'endsAt', a.ends_at, 'isPinned', a.is_pinned,
          'planRunId', a.plan_run_id, 'madeBy', a.made_by,
          'tools', (select coalesce(jsonb_agg(jsonb_build_object('toolId', u.tool_id, 'unit', u.unit) order by u.tool_id), '[]')
                      from assignment_tools u where u.shop_id = $1 and u.assignment_id = a.id and u.cancelled_at is null)) end)
      order by o.sequence)
     from reservation_operations o
     left join assignments a on a.shop_id = $1 and a.reservation_operation_id = o.id and a.cancelled_at is null
    where o.shop_id = $1 and o.reservation_id = r.id) as operations
  from reservations r
 where r.shop_id = $1 and ($3::uuid is null or r.id = $3) and not ${RESERVATION_IS_OVER}
 order by r.number`;

/**
 * Reserved work as part of the plan. What is only held on the phone stays where it is; what was taken may move between
 * its arrival and its promise. Expired reservations are nowhere in it, whether or not anybody has ended them yet.
 */
export async function reservedWork(tx: Tx, horizon: PlanHorizon): Promise<PlanContribution> {
  const rows = await tx.rows<Row>(LIVE, [tx.shopId, tx.now, null]);
  const names = new Map<string, string>();
  const places = new Map<string, Omit<StoredPlace, 'start' | 'end'>>();
  for (const { id, number, operations } of rows) {
    names.set(id, `reservation ${number}`);
    for (const { id: operation, title, place } of operations) {
      names.set(operation, `${title} (reservation ${number})`);
      if (place === null) continue;
      places.set(operation, {
        ...place,
        ...{ workOrderId: null, bayUntil: null },
        ...{ startsAt: new Date(place.startsAt), endsAt: new Date(place.endsAt) },
      });
    }
  }
  return { repairOrders: rows.flatMap((row) => orderOf(row, horizon)), names, places };
}

/**
 * A reservation that is held and lacks a place for some of its work, as it would be once it is taken: free to be placed
 * between its arrival and its promise. Null where it has all of its places, or is not held.
 */
export async function orderOfReservation(
  tx: Tx,
  horizon: PlanHorizon,
  reservationId: string,
  promisedAt: string | undefined,
): Promise<PlanRepairOrder | null> {
  const [row] = await tx.rows<Row>(LIVE, [tx.shopId, tx.now, reservationId]);
  if (row === undefined || row.isTaken || row.operations.every(({ place }) => place !== null)) return null;
  const promised = promisedAt === undefined ? row.readyP80At : new Date(promisedAt);
  return orderOf({ ...row, isTaken: true, promisedAt: promised }, horizon)[0] ?? null;
}

function orderOf(row: Row, horizon: PlanHorizon): PlanRepairOrder[] {
  const kept = row.isTaken ? row.operations : row.operations.filter(({ place }) => place !== null);
  if (kept.length === 0) return [];
  return [
    {
      id: row.id,
      arrives: row.isHere ? null : Math.max(0, horizon.minuteOf(row.arrivesAt)),
      promised: row.promisedAt === null ? null : horizon.minuteOf(row.promisedAt),
      weight: PROMISE_WEIGHT,
      vehicle: { weightKg: row.weightKg, heightMm: row.heightMm },
      operations: kept.map((operation, at) => ({
        ...planOperation(operation, kept[at - 1]?.id ?? null),
        ...(row.isTaken ? {} : held(operation, horizon)),
      })),
    },
  ];
}

/** Held on the phone: it stays. Where its time has begun it counts as begun, because nothing else may be put there. */
function held({ place }: StoredOperation, { minuteOf, now }: PlanHorizon): Partial<PlanOperation> {
  if (place === null) return {};
  const [start, end] = [minuteOf(new Date(place.startsAt)), minuteOf(new Date(place.endsAt))];
  const { bayId: bay, technicianId } = place;
  const technicians = [technicianId];
  const pin: PlanPin = { start, bay, technicians };
  if (start >= now) return { pin };
  const tools = place.tools.map(({ toolId, unit }) => `${toolId}#${unit}`);
  return { started: { start: Math.max(0, start), end: Math.max(end, now), bay, technicians, tools } };
}
