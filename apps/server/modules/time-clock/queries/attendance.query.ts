import { ok, type Result } from '#libs/kernel';
import type { Tx } from '../../../platform/database/tx.js';
import type { Page } from '../../../platform/http/answers.js';
import { limitOf, pageOf } from '../../../platform/http/pages.js';
import { entrySeconds } from '../../work-orders/index.js';
import { entryCursor } from '../data/entry-cursor.js';
import { whoseEntries } from '../data/whose-entries.js';
import type { EntriesQuery } from '../dto/clock.request.js';
import type { AttendanceEntryResponse } from '../dto/clock.response.js';

type Instants = 'startedAt' | 'endedAt' | 'supersededAt';
type Row = Omit<AttendanceEntryResponse, Instants> & {
  startedAt: Date;
  endedAt: Date | null;
  supersededAt: Date | null;
};

const SELECT = `
select e.id, e.technician_id as "technicianId", s.display_name as "technicianName", e.started_at as "startedAt",
       e.ended_at as "endedAt", ${entrySeconds('e')} as seconds, e.ended_by as "endedBy", e.corrects_id as "correctsId",
       e.correction_reason as "correctionReason", e.superseded_at as "supersededAt", e.recorded_by as "recordedBy"
  from attendance_entries e join staff s on s.shop_id = e.shop_id and s.id = e.technician_id
 where e.shop_id = $1`;

async function select(tx: Tx, rest: string, values: readonly unknown[]): Promise<AttendanceEntryResponse[]> {
  const rows = await tx.rows<Row>(`${SELECT} and ${rest}`, [tx.shopId, tx.now, ...values]);
  return rows.map((row) => ({
    ...row,
    startedAt: row.startedAt.toISOString(),
    endedAt: row.endedAt?.toISOString() ?? null,
    supersededAt: row.supersededAt?.toISOString() ?? null,
  }));
}

export async function openAttendanceOf(
  tx: Tx,
  technicianId: string,
): Promise<AttendanceEntryResponse | undefined> {
  const [entry] = await select(
    tx,
    'e.technician_id = $3 and e.ended_at is null and e.superseded_at is null',
    [technicianId],
  );
  return entry;
}

export async function attendanceEntry(tx: Tx, entryId: string): Promise<AttendanceEntryResponse | undefined> {
  const [entry] = await select(tx, 'e.id = $3', [entryId]);
  return entry;
}

export async function overlappingAttendance(
  tx: Tx,
  technicianId: string,
  startedAt: Date,
  endedAt: Date,
  exceptId: string,
): Promise<AttendanceEntryResponse | undefined> {
  const [entry] = await select(
    tx,
    `e.technician_id = $3 and e.superseded_at is null and e.id <> $6
       and tstzrange(e.started_at, e.ended_at) && tstzrange($4, $5) order by e.started_at limit 1`,
    [technicianId, startedAt, endedAt, exceptId],
  );
  return entry;
}

/** Newest first, superseded ones among them, marked. */
export async function attendance(
  tx: Tx,
  query: EntriesQuery,
): Promise<Result<Page<AttendanceEntryResponse>>> {
  const whose = await whoseEntries(tx, query);
  if (!whose.ok) return whose;
  const limit = limitOf(query);
  const { technicianId, from, to } = whose.value;
  const rows = await select(
    tx,
    `($3::uuid is null or e.technician_id = $3)
       and ($4::timestamptz is null or coalesce(e.ended_at, 'infinity') > $4)
       and ($5::timestamptz is null or e.started_at < $5)
       and ($6::timestamptz is null or (e.started_at, e.id::text) < ($6, $7::text))
     order by e.started_at desc, e.id::text desc limit ${limit + 1}`,
    [technicianId, from, to, ...entryCursor(query.cursor)],
  );
  return ok(
    pageOf(
      rows,
      limit,
      (row) => row,
      (row) => [row.startedAt, row.id],
    ),
  );
}
