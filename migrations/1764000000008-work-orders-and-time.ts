import type { MigrationInterface, QueryRunner } from 'typeorm';
import { neverChanges, underTenancy } from './support/tenancy.js';

/** Approved lines on the floor: who holds them, where they are planned, what was clocked on them. */
export class WorkOrdersAndTime1764000000008 implements MigrationInterface {
  async up(q: QueryRunner): Promise<void> {
    await this.workOrders(q);
    await this.assignments(q);
    await this.time(q);
    await underTenancy(q, {
      documents: [
        'work_orders',
        'work_order_precedences',
        'claims',
        'assignments',
        'assignment_tools',
        'clock_entries',
        'attendance_entries',
      ],
      facts: ['work_order_tools', 'part_receipts'],
    });
    await neverChanges(q, ['part_receipts']);
  }

  private async workOrders(q: QueryRunner): Promise<void> {
    await q.query(`create table work_orders (
      shop_id uuid not null,
      id uuid not null,
      number integer not null,
      repair_order_id uuid not null,
      line_id uuid not null,
      decision_id uuid not null,
      decision_answer text not null,
      title text not null,
      book_hundredths integer not null,
      needs_lift boolean not null,
      bay_kinds text[] not null,
      skills text[] not null,
      cautions text[] not null,
      released_at timestamptz not null,
      withdrawn_at timestamptz,
      finished_at timestamptz,
      finished_by uuid,
      checked_at timestamptz,
      checked_by uuid,
      check_note text,
      version integer not null,
      constraint work_orders_pkey primary key (shop_id, id),
      constraint work_orders_number_taken unique (shop_id, number),
      constraint work_orders_repair_order foreign key (shop_id, repair_order_id) references repair_orders (shop_id, id),
      constraint work_orders_line foreign key (shop_id, line_id, repair_order_id) references lines (shop_id, id, repair_order_id),
      constraint work_orders_in_repair_order unique (shop_id, id, repair_order_id),
      constraint work_orders_approved foreign key (shop_id, decision_id, line_id, decision_answer) references decisions (shop_id, id, line_id, answer),
      constraint work_orders_approved_only check (decision_answer = 'approved'),
      constraint work_orders_finished check ((finished_at is null) = (finished_by is null)),
      constraint work_orders_checked check ((checked_at is null) = (checked_by is null) and (checked_at is null or finished_at is not null)),
      constraint work_orders_withdrawn check (withdrawn_at is null or finished_at is null)
    )`);
    await q.query(
      'create unique index work_orders_one_a_line on work_orders (shop_id, line_id) where (withdrawn_at is null)',
    );
    await q.query('create index work_orders_of_repair_order on work_orders (shop_id, repair_order_id)');
    await q.query(`create index work_orders_open on work_orders (shop_id, released_at)
      where (withdrawn_at is null and checked_at is null)`);
    await q.query('create index work_orders_by_finish on work_orders (shop_id, finished_at)');
    await q.query(`alter table findings add constraint findings_work_order
      foreign key (shop_id, work_order_id, repair_order_id) references work_orders (shop_id, id, repair_order_id)`);
    await q.query(`create table work_order_tools (
      shop_id uuid not null,
      work_order_id uuid not null,
      tool_id uuid not null,
      constraint work_order_tools_pkey primary key (shop_id, work_order_id, tool_id),
      constraint work_order_tools_work_order foreign key (shop_id, work_order_id) references work_orders (shop_id, id),
      constraint work_order_tools_tool foreign key (shop_id, tool_id) references special_tools (shop_id, id)
    )`);
    await q.query(`create table work_order_precedences (
      shop_id uuid not null,
      work_order_id uuid not null,
      earlier_id uuid not null,
      constraint work_order_precedences_pkey primary key (shop_id, work_order_id, earlier_id),
      constraint work_order_precedences_work_order foreign key (shop_id, work_order_id) references work_orders (shop_id, id),
      constraint work_order_precedences_earlier foreign key (shop_id, earlier_id) references work_orders (shop_id, id),
      constraint work_order_precedences_not_itself check (work_order_id <> earlier_id)
    )`);
    await q.query(
      'create index work_order_precedences_earlier_of on work_order_precedences (shop_id, earlier_id)',
    );
    await q.query(`create table claims (
      shop_id uuid not null,
      id uuid not null,
      work_order_id uuid not null,
      technician_id uuid not null,
      claimed_at timestamptz not null,
      released_at timestamptz,
      release_reason text,
      constraint claims_pkey primary key (shop_id, id),
      constraint claims_work_order foreign key (shop_id, work_order_id) references work_orders (shop_id, id),
      constraint claims_technician foreign key (shop_id, technician_id) references staff (shop_id, id)
    )`);
    await q.query(
      'create unique index claims_one_holder on claims (shop_id, work_order_id) where (released_at is null)',
    );
    await q.query(
      'create index claims_of_technician on claims (shop_id, technician_id) where (released_at is null)',
    );
    await q.query(`create table part_receipts (
      shop_id uuid not null,
      id uuid not null,
      line_item_id uuid not null,
      quantity_hundredths integer not null,
      received_at timestamptz not null,
      received_by uuid not null,
      note text,
      constraint part_receipts_pkey primary key (shop_id, id),
      constraint part_receipts_line_item foreign key (shop_id, line_item_id) references line_items (shop_id, id),
      constraint part_receipts_quantity check (quantity_hundredths <> 0)
    )`);
    await q.query('create index part_receipts_of_line_item on part_receipts (shop_id, line_item_id)');
  }

  /** Half-open ranges: back-to-back is no overlap. A cancelled assignment holds nothing. */
  private async assignments(q: QueryRunner): Promise<void> {
    await q.query(`create table assignments (
      shop_id uuid not null,
      id uuid not null,
      work_order_id uuid not null,
      bay_id uuid not null,
      technician_id uuid not null,
      starts_at timestamptz not null,
      ends_at timestamptz not null,
      made_by uuid not null,
      made_at timestamptz not null,
      cancelled_at timestamptz,
      version integer not null,
      constraint assignments_pkey primary key (shop_id, id),
      constraint assignments_work_order foreign key (shop_id, work_order_id) references work_orders (shop_id, id),
      constraint assignments_bay foreign key (shop_id, bay_id) references bays (shop_id, id),
      constraint assignments_technician foreign key (shop_id, technician_id) references staff (shop_id, id),
      constraint assignments_order check (starts_at < ends_at),
      constraint assignments_bay_no_overlap exclude using gist
        (shop_id with =, bay_id with =, tstzrange(starts_at, ends_at) with &&) where (cancelled_at is null),
      constraint assignments_technician_no_overlap exclude using gist
        (shop_id with =, technician_id with =, tstzrange(starts_at, ends_at) with &&) where (cancelled_at is null)
    )`);
    await q.query(
      'create unique index assignments_one_a_work_order on assignments (shop_id, work_order_id) where (cancelled_at is null)',
    );
    await q.query('create index assignments_by_time on assignments (shop_id, starts_at)');
    await q.query(`create table assignment_tools (
      shop_id uuid not null,
      assignment_id uuid not null,
      tool_id uuid not null,
      unit integer not null,
      starts_at timestamptz not null,
      ends_at timestamptz not null,
      cancelled_at timestamptz,
      constraint assignment_tools_pkey primary key (shop_id, assignment_id, tool_id),
      constraint assignment_tools_assignment foreign key (shop_id, assignment_id) references assignments (shop_id, id),
      constraint assignment_tools_tool foreign key (shop_id, tool_id) references special_tools (shop_id, id),
      constraint assignment_tools_order check (starts_at < ends_at),
      constraint assignment_tools_no_overlap exclude using gist
        (shop_id with =, tool_id with =, unit with =, tstzrange(starts_at, ends_at) with &&) where (cancelled_at is null)
    )`);
  }

  /** An open entry reaches to the end of time, so the exclusion constraint also means: one open entry a technician. */
  private async time(q: QueryRunner): Promise<void> {
    await q.query(`create table attendance_entries (
      shop_id uuid not null,
      id uuid not null,
      technician_id uuid not null,
      started_at timestamptz not null,
      ended_at timestamptz,
      ended_by uuid,
      corrects_id uuid,
      superseded_at timestamptz,
      correction_reason text,
      recorded_by uuid not null,
      constraint attendance_entries_pkey primary key (shop_id, id),
      constraint attendance_entries_technician foreign key (shop_id, technician_id) references staff (shop_id, id),
      constraint attendance_entries_corrects foreign key (shop_id, corrects_id) references attendance_entries (shop_id, id),
      constraint attendance_entries_order check (started_at < ended_at),
      constraint attendance_entries_correction check ((corrects_id is null) = (correction_reason is null)),
      constraint attendance_entries_no_overlap exclude using gist
        (shop_id with =, technician_id with =, tstzrange(started_at, ended_at) with &&) where (superseded_at is null)
    )`);
    await q.query(`create table clock_entries (
      shop_id uuid not null,
      id uuid not null,
      technician_id uuid not null,
      kind text not null,
      work_order_id uuid,
      indirect_kind text,
      started_at timestamptz not null,
      ended_at timestamptz,
      end_kind text,
      end_reason text,
      ended_by uuid,
      corrects_id uuid,
      superseded_at timestamptz,
      correction_reason text,
      recorded_by uuid not null,
      constraint clock_entries_pkey primary key (shop_id, id),
      constraint clock_entries_technician foreign key (shop_id, technician_id) references staff (shop_id, id),
      constraint clock_entries_work_order foreign key (shop_id, work_order_id) references work_orders (shop_id, id),
      constraint clock_entries_corrects foreign key (shop_id, corrects_id) references clock_entries (shop_id, id),
      constraint clock_entries_kind check (kind in ('work', 'indirect')),
      constraint clock_entries_on_one_thing check ((kind = 'work') = (work_order_id is not null) and (kind = 'indirect') = (indirect_kind is not null)),
      constraint clock_entries_indirect_kind check (indirect_kind in ('cleaning', 'training', 'waiting', 'parts-run', 'road-test', 'meeting', 'other')),
      constraint clock_entries_end_kind check (end_kind in ('off', 'switch', 'pause', 'finish', 'closed-by-manager', 'corrected')),
      constraint clock_entries_ended_whole check ((ended_at is null) = (end_kind is null)),
      constraint clock_entries_pause_has_reason check (end_kind not in ('pause', 'closed-by-manager') or end_reason is not null),
      constraint clock_entries_order check (started_at < ended_at),
      constraint clock_entries_correction check ((corrects_id is null) = (correction_reason is null)),
      constraint clock_entries_no_overlap exclude using gist
        (shop_id with =, technician_id with =, tstzrange(started_at, ended_at) with &&) where (superseded_at is null)
    )`);
    await q.query('create index clock_entries_of_work_order on clock_entries (shop_id, work_order_id)');
    await q.query('create index clock_entries_by_time on clock_entries (shop_id, technician_id, started_at)');
    await q.query(`create index clock_entries_open on clock_entries (shop_id)
      where (ended_at is null and superseded_at is null)`);
    // What was clocked is never rewritten: an entry is ended once and superseded once, by a correction that says who and why.
    for (const table of ['clock_entries', 'attendance_entries']) {
      const kept = ['technician_id', 'started_at', 'corrects_id', 'correction_reason', 'recorded_by'];
      if (table === 'clock_entries') kept.push('kind', 'work_order_id', 'indirect_kind');
      const ended = [
        'ended_at',
        'ended_by',
        ...(table === 'clock_entries' ? ['end_kind', 'end_reason'] : []),
      ];
      const unchanged = (columns: readonly string[]): string =>
        columns.map((c) => `new.${c} is not distinct from old.${c}`).join(' and ');
      await q.query(`create function ${table}_end_once() returns trigger language plpgsql as $$
        begin
          if tg_op = 'DELETE' or not (${unchanged(kept)}
               and (old.ended_at is null or (${unchanged(ended)}))
               and (old.superseded_at is null or new.superseded_at = old.superseded_at)) then
            raise exception 'a recorded time is corrected by a new row' using errcode = '23514', constraint = '${table}_end_once', table = tg_table_name;
          end if;
          return new;
        end $$`);
      await q.query(`create trigger ${table}_end_once before update or delete on ${table}
        for each row execute function ${table}_end_once()`);
    }
  }

  down(): Promise<void> {
    return Promise.reject(new Error('migrations only go forward; restore a backup to go back'));
  }
}
