import type { MigrationInterface, QueryRunner } from 'typeorm';
import { underTenancy } from './support/tenancy.js';

/** When the shop, its people, its bays and its tools are not there to work with. Shifts have been there before. */
export class Calendars1764000000013 implements MigrationInterface {
  async up(q: QueryRunner): Promise<void> {
    await q.query(`create table closed_days (
      shop_id uuid not null,
      day date not null,
      name text not null,
      constraint closed_days_pkey primary key (shop_id, day),
      constraint closed_days_shop foreign key (shop_id) references shops (shop_id)
    )`);
    await q.query(`create table absences (
      shop_id uuid not null,
      id uuid not null,
      technician_id uuid not null,
      starts_at timestamptz not null,
      ends_at timestamptz not null,
      reason text,
      recorded_by uuid not null,
      recorded_at timestamptz not null,
      withdrawn_at timestamptz,
      version integer not null,
      constraint absences_pkey primary key (shop_id, id),
      constraint absences_technician foreign key (shop_id, technician_id) references staff (shop_id, id),
      constraint absences_recorded_by foreign key (shop_id, recorded_by) references staff (shop_id, id),
      constraint absences_order check (starts_at < ends_at),
      constraint absences_no_overlap exclude using gist
        (shop_id with =, technician_id with =, tstzrange(starts_at, ends_at) with &&) where (withdrawn_at is null)
    )`);
    await this.closures(q, 'bay_closures', 'bay_id uuid not null', 'bay_id with =', [
      'constraint bay_closures_bay foreign key (shop_id, bay_id) references bays (shop_id, id)',
    ]);
    await this.closures(
      q,
      'tool_closures',
      'tool_id uuid not null, unit integer not null',
      'tool_id with =, unit with =',
      [
        'constraint tool_closures_tool foreign key (shop_id, tool_id) references special_tools (shop_id, id)',
        'constraint tool_closures_unit check (unit > 0)',
      ],
    );
    await underTenancy(q, { documents: ['closed_days', 'absences', 'bay_closures', 'tool_closures'] });
  }

  /**
   * `ends_at` is what was expected, null until somebody knows; `ended_at` is when it was really put back, which stands
   * before what was expected. One that was put back before it began never was: it is in nobody's way.
   */
  private async closures(
    q: QueryRunner,
    table: string,
    columns: string,
    same: string,
    constraints: readonly string[],
  ): Promise<void> {
    await q.query(`create table ${table} (
      shop_id uuid not null,
      id uuid not null,
      ${columns},
      starts_at timestamptz not null,
      ends_at timestamptz,
      reason text not null,
      recorded_by uuid not null,
      recorded_at timestamptz not null,
      ended_by uuid,
      ended_at timestamptz,
      version integer not null,
      constraint ${table}_pkey primary key (shop_id, id),
      ${constraints.join(',\n      ')},
      constraint ${table}_recorded_by foreign key (shop_id, recorded_by) references staff (shop_id, id),
      constraint ${table}_ended_by foreign key (shop_id, ended_by) references staff (shop_id, id),
      constraint ${table}_order check (starts_at < ends_at),
      constraint ${table}_ended check ((ended_at is null) = (ended_by is null)),
      constraint ${table}_no_overlap exclude using gist
        (shop_id with =, ${same}, tstzrange(starts_at, least(ends_at, ended_at)) with &&)
        where (ended_at is null or ended_at > starts_at)
    )`);
  }

  down(): Promise<void> {
    return Promise.reject(new Error('migrations only go forward; restore a backup to go back'));
  }
}
