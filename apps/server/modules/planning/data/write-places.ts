import type { Tx } from '../../../platform/database/tx.js';
import type { StoredPlace } from '../loading/shop-plan.js';
import type { PlaceWrite } from './place-writes.js';

/**
 * Takes out everything that changes and then puts it in its new place, so that the exclusion constraints never see the
 * one in the former place of the other. The caller holds the floor (`lockFloor`).
 */
export async function writePlaces(
  tx: Tx,
  runId: string,
  writes: readonly PlaceWrite[],
  givenUp: readonly StoredPlace[],
): Promise<void> {
  const rows = writes.map((write) => ({ ...write, id: write.stored?.assignmentId ?? tx.newId() }));
  const changed = rows.filter(({ kind }) => kind !== 'new');
  await takeOut(tx, changed, givenUp);
  await putIn(tx, runId, changed);
  await insert(
    tx,
    runId,
    rows.filter(({ kind }) => kind === 'new'),
  );
  await giveTools(
    tx,
    rows.filter(({ kind }) => kind !== 'held'),
  );
  const told = [
    ...rows.filter(({ kind }) => kind !== 'held').map(({ id, place }) => [id, place.workOrderId] as const),
    ...givenUp.map(({ assignmentId, workOrderId }) => [assignmentId, workOrderId] as const),
  ];
  for (const [assignmentId, workOrderId] of told)
    tx.announce('assignment', {
      ...{ assignmentId, planRunId: runId },
      ...(workOrderId === null ? {} : { workOrderId }),
    });
}

type Row = PlaceWrite & { readonly id: string };

async function takeOut(tx: Tx, changed: readonly Row[], givenUp: readonly StoredPlace[]): Promise<void> {
  const gone = givenUp.map(({ assignmentId }) => assignmentId);
  await tx.em.query(
    `update assignments set cancelled_at = $3, version = version + (id = any ($4))::int
      where shop_id = $1 and id = any ($2) and cancelled_at is null`,
    [tx.shopId, [...changed.map(({ id }) => id), ...gone], tx.now, gone],
  );
  await tx.em.query(
    `update assignment_tools set cancelled_at = $3
      where shop_id = $1 and assignment_id = any ($2) and cancelled_at is null`,
    [tx.shopId, [...changed.filter(({ kind }) => kind !== 'held').map(({ id }) => id), ...gone], tx.now],
  );
}

/** Whose place the plan chose is a place of the run; what is under way and what only holds its bay stays whose it was. */
async function putIn(tx: Tx, runId: string, changed: readonly Row[]): Promise<void> {
  const back = await tx.rows(
    `update assignments a set bay_id = n."bayId", technician_id = n."technicianId", starts_at = n."startsAt",
            ends_at = n."endsAt", bay_until = n."bayUntil", cancelled_at = null,
            made_by = case when n."isMoved" then null else a.made_by end,
            plan_run_id = case when n."isMoved" then $3 else a.plan_run_id end,
            made_at = case when n."isMoved" then $4 else a.made_at end,
            version = a.version + (not n."isHeld")::int
       from jsonb_to_recordset($2::jsonb) as n(id uuid, "bayId" uuid, "technicianId" uuid, "startsAt" timestamptz,
            "endsAt" timestamptz, "bayUntil" timestamptz, "isMoved" boolean, "isHeld" boolean)
      where a.shop_id = $1 and a.id = n.id returning a.id`,
    [tx.shopId, JSON.stringify(changed.map(columnsOf)), runId, tx.now],
  );
  if (back.length !== changed.length) throw new Error('a place that was locked is not there any more');
}

const columnsOf = ({ id, kind, place }: Row) => ({
  ...{ id, bayId: place.bayId, technicianId: place.technicianId },
  ...{ startsAt: place.startsAt, endsAt: place.endsAt, bayUntil: place.bayUntil },
  ...{ isMoved: kind === 'moved', isHeld: kind === 'held', workOrderId: place.workOrderId },
  reservationOperationId: place.workOrderId === null ? place.operation : null,
});

async function insert(tx: Tx, runId: string, rows: readonly Row[]): Promise<void> {
  if (rows.length === 0) return;
  await tx.em.query(
    `insert into assignments (shop_id, id, work_order_id, reservation_operation_id, bay_id, technician_id, starts_at, ends_at, bay_until, is_pinned,
            plan_run_id, made_at, version)
     select $1, n.id, n."workOrderId", n."reservationOperationId", n."bayId", n."technicianId", n."startsAt", n."endsAt", n."bayUntil", false, $3, $4, 1
       from jsonb_to_recordset($2::jsonb) as n(id uuid, "workOrderId" uuid, "reservationOperationId" uuid, "bayId" uuid,
            "technicianId" uuid, "startsAt" timestamptz, "endsAt" timestamptz, "bayUntil" timestamptz)`,
    [tx.shopId, JSON.stringify(rows.map(columnsOf)), runId, tx.now],
  );
}

async function giveTools(tx: Tx, rows: readonly Row[]): Promise<void> {
  const tools = rows.flatMap(({ id, place: { startsAt, endsAt, tools: units } }) =>
    units.map(({ toolId, unit }) => ({ assignmentId: id, toolId, unit, startsAt, endsAt })),
  );
  if (tools.length === 0) return;
  await tx.em.query(
    `insert into assignment_tools (shop_id, assignment_id, tool_id, unit, starts_at, ends_at)
     select $1, n."assignmentId", n."toolId", n.unit, n."startsAt", n."endsAt"
       from jsonb_to_recordset($2::jsonb) as n("assignmentId" uuid, "toolId" uuid, unit integer,
            "startsAt" timestamptz, "endsAt" timestamptz)
     on conflict (shop_id, assignment_id, tool_id) do update
       set unit = excluded.unit, starts_at = excluded.starts_at, ends_at = excluded.ends_at, cancelled_at = null`,
    [tx.shopId, JSON.stringify(tools)],
  );
}
