import type { MigrationInterface, QueryRunner } from 'typeorm';
import { underTenancy } from './support/tenancy.js';

/** Places on the floor that are kept for a car that may come: for minutes while on the phone, then for its arrival. */
export class Reservations1764000000015 implements MigrationInterface {
  async up(q: QueryRunner): Promise<void> {
    await q.query(`alter table shops
      add column hold_minutes integer not null default 15,
      add constraint shops_hold_minutes check (hold_minutes between 1 and 120)`);
    await this.reservations(q);
    await this.operations(q);
    await this.assignments(q);
    await underTenancy(q, {
      documents: ['reservations'],
      facts: ['reservation_operations', 'reservation_operation_tools'],
    });
  }

  /**
   * Held until `expires_at`, or taken and then kept until `lapses_at`, the end of the day on which the car was to come.
   * Which of these it is follows from the times; what was told on the phone stays as it was told.
   */
  private async reservations(q: QueryRunner): Promise<void> {
    await q.query(`create table reservations (
      shop_id uuid not null,
      id uuid not null,
      number integer not null,
      made_by uuid not null,
      made_at timestamptz not null,
      expires_at timestamptz,
      extended_at timestamptz,
      taken_at timestamptz,
      taken_by uuid,
      lapses_at timestamptz,
      released_at timestamptz,
      released_by uuid,
      release_reason text,
      repair_order_id uuid,
      customer_id uuid,
      customer_name text,
      phone text,
      vehicle_id uuid,
      vehicle_words text,
      weight_kg integer,
      height_mm integer,
      note text,
      arrives_at timestamptz not null,
      ready_at timestamptz not null,
      ready_p80_at timestamptz not null,
      promised_at timestamptz,
      version integer not null,
      constraint reservations_pkey primary key (shop_id, id),
      constraint reservations_number_taken unique (shop_id, number),
      constraint reservations_made_by foreign key (shop_id, made_by) references staff (shop_id, id),
      constraint reservations_taken_by foreign key (shop_id, taken_by) references staff (shop_id, id),
      constraint reservations_released_by foreign key (shop_id, released_by) references staff (shop_id, id),
      constraint reservations_repair_order foreign key (shop_id, repair_order_id) references repair_orders (shop_id, id),
      constraint reservations_customer foreign key (shop_id, customer_id) references customers (shop_id, id),
      constraint reservations_vehicle foreign key (shop_id, vehicle_id) references vehicles (shop_id, id),
      constraint reservations_held_or_taken check ((taken_at is null) = (expires_at is not null)
        and (taken_at is null) = (taken_by is null) and (taken_at is null) = (promised_at is null)
        and (taken_at is null) = (lapses_at is null)),
      constraint reservations_taken_for_somebody check (taken_at is null or ((customer_id is not null or customer_name is not null)
        and (customer_id is not null or phone is not null) and (vehicle_id is not null or vehicle_words is not null))),
      constraint reservations_released check ((released_at is null) = (release_reason is null)),
      constraint reservations_release_reason check (release_reason in ('expired', 'given-back', 'used', 'not-come')),
      constraint reservations_used_for_a_repair_order check (release_reason <> 'used' or repair_order_id is not null),
      constraint reservations_order check (arrives_at <= ready_at and ready_at <= ready_p80_at and promised_at >= arrives_at),
      constraint reservations_weight check (weight_kg between 100 and 60000),
      constraint reservations_height check (height_mm between 500 and 5000)
    )`);
    await q.query(`create unique index reservations_one_a_repair_order on reservations (shop_id, repair_order_id)
      where (repair_order_id is not null)`);
    await q.query(
      'create index reservations_open on reservations (shop_id, arrives_at) where (released_at is null)',
    );
  }

  /** What is to be done, as the catalogue had it then, and the place that was offered for it. */
  private async operations(q: QueryRunner): Promise<void> {
    await q.query(`create table reservation_operations (
      shop_id uuid not null,
      id uuid not null,
      reservation_id uuid not null,
      sequence integer not null,
      operation_id uuid,
      positions text[] not null,
      title text not null,
      book_hundredths integer not null,
      minutes integer not null,
      minutes_p80 integer not null,
      needs_lift boolean not null,
      bay_kinds text[] not null,
      skills text[] not null,
      is_after_previous boolean not null,
      bay_id uuid not null,
      technician_id uuid not null,
      starts_at timestamptz not null,
      ends_at timestamptz not null,
      constraint reservation_operations_pkey primary key (shop_id, id),
      constraint reservation_operations_sequence_taken unique (shop_id, reservation_id, sequence),
      constraint reservation_operations_reservation foreign key (shop_id, reservation_id) references reservations (shop_id, id),
      constraint reservation_operations_operation foreign key (shop_id, operation_id) references operations (shop_id, id),
      constraint reservation_operations_bay foreign key (shop_id, bay_id) references bays (shop_id, id),
      constraint reservation_operations_technician foreign key (shop_id, technician_id) references staff (shop_id, id),
      constraint reservation_operations_hours check (book_hundredths > 0 and minutes > 0 and minutes_p80 >= minutes),
      constraint reservation_operations_bay_kinds check (bay_kinds <@ array['lift', 'flat', 'alignment']),
      constraint reservation_operations_order check (starts_at < ends_at)
    )`);
    await q.query(`create table reservation_operation_tools (
      shop_id uuid not null,
      reservation_operation_id uuid not null,
      tool_id uuid not null,
      constraint reservation_operation_tools_pkey primary key (shop_id, reservation_operation_id, tool_id),
      constraint reservation_operation_tools_operation foreign key (shop_id, reservation_operation_id)
        references reservation_operations (shop_id, id),
      constraint reservation_operation_tools_tool foreign key (shop_id, tool_id) references special_tools (shop_id, id)
    )`);
  }

  /** A reserved place is a place: the same exclusion constraints keep it from everything else. */
  private async assignments(q: QueryRunner): Promise<void> {
    await q.query(`alter table assignments
      alter column work_order_id drop not null,
      add column reservation_operation_id uuid,
      add constraint assignments_reservation_operation foreign key (shop_id, reservation_operation_id)
        references reservation_operations (shop_id, id),
      add constraint assignments_for_one_thing check (num_nonnulls(work_order_id, reservation_operation_id) = 1)`);
    await q.query(`create unique index assignments_one_a_reserved_operation on assignments (shop_id, reservation_operation_id)
      where (cancelled_at is null)`);
  }

  down(): Promise<void> {
    return Promise.reject(new Error('migrations only go forward; restore a backup to go back'));
  }
}
