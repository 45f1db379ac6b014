import type { MigrationInterface, QueryRunner } from 'typeorm';
import { underTenancy } from './support/tenancy.js';

/** Bays and lifts, special tools, and what each technician may and can do. */
export class Floor1764000000004 implements MigrationInterface {
  async up(q: QueryRunner): Promise<void> {
    await q.query(`create table bays (
      shop_id uuid not null,
      id uuid not null,
      number integer not null,
      name text not null,
      kind text not null,
      lift_kind text,
      capacity_kg integer,
      max_height_mm integer,
      lift_inspected_on date,
      out_of_service_reason text,
      is_active boolean not null,
      version integer not null,
      constraint bays_pkey primary key (shop_id, id),
      constraint bays_shop foreign key (shop_id) references shops (shop_id),
      constraint bays_number_taken unique (shop_id, number),
      constraint bays_kind check (kind in ('lift', 'flat', 'alignment')),
      constraint bays_lift check ((kind = 'flat') = (lift_kind is null) and (lift_kind is null) = (capacity_kg is null)),
      constraint bays_lift_kind check (lift_kind in ('two-post', 'four-post', 'scissor', 'in-ground')),
      constraint bays_capacity check (capacity_kg > 0)
    )`);
    await q.query(`alter table devices add constraint devices_bay
      foreign key (shop_id, bay_id) references bays (shop_id, id)`);
    await q.query(`create table special_tools (
      shop_id uuid not null,
      id uuid not null,
      name text not null,
      units integer not null,
      version integer not null,
      constraint special_tools_pkey primary key (shop_id, id),
      constraint special_tools_shop foreign key (shop_id) references shops (shop_id),
      constraint special_tools_name_taken unique (shop_id, name),
      constraint special_tools_units check (units > 0)
    )`);
    await q.query(`create table technician_skills (
      shop_id uuid not null,
      technician_id uuid not null,
      skill text not null,
      certificate text,
      valid_until date,
      constraint technician_skills_pkey primary key (shop_id, technician_id, skill),
      constraint technician_skills_staff foreign key (shop_id, technician_id) references staff (shop_id, id)
    )`);
    await q.query(`create table shift_patterns (
      shop_id uuid not null,
      id uuid not null,
      technician_id uuid not null,
      weekday integer not null,
      from_minute integer not null,
      to_minute integer not null,
      break_from_minute integer,
      break_to_minute integer,
      constraint shift_patterns_pkey primary key (shop_id, id),
      constraint shift_patterns_staff foreign key (shop_id, technician_id) references staff (shop_id, id),
      constraint shift_patterns_one_a_day unique (shop_id, technician_id, weekday),
      constraint shift_patterns_weekday check (weekday between 1 and 7),
      constraint shift_patterns_order check (0 <= from_minute and from_minute < to_minute and to_minute <= 1440),
      constraint shift_patterns_break check ((break_from_minute is null and break_to_minute is null)
        or (from_minute <= break_from_minute and break_from_minute < break_to_minute and break_to_minute <= to_minute))
    )`);
    await underTenancy(q, { documents: ['bays', 'special_tools', 'technician_skills', 'shift_patterns'] });
  }

  down(): Promise<void> {
    return Promise.reject(new Error('migrations only go forward; restore a backup to go back'));
  }
}
