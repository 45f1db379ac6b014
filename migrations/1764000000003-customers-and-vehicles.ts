import type { MigrationInterface, QueryRunner } from 'typeorm';
import { makeSearchRole, searchable } from './support/search.js';
import { neverChanges, underTenancy } from './support/tenancy.js';

/** Who pays, what is repaired, and the distances read off it. */
export class CustomersAndVehicles1764000000003 implements MigrationInterface {
  async up(q: QueryRunner): Promise<void> {
    await q.query(`create table customers (
      shop_id uuid not null,
      id uuid not null,
      display_name text not null,
      phone text,
      phone_e164 text,
      email text,
      address text,
      note text,
      search_text text not null,
      version integer not null,
      created_at timestamptz not null,
      constraint customers_pkey primary key (shop_id, id),
      constraint customers_shop foreign key (shop_id) references shops (shop_id)
    )`);
    await q.query('create index customers_recent on customers (shop_id, created_at)');
    await q.query(`create table vehicles (
      shop_id uuid not null,
      id uuid not null,
      customer_id uuid not null,
      plate text,
      vin text,
      vin_verdict text,
      make text not null,
      model text not null,
      model_year integer,
      colour text,
      drivetrain text not null,
      weight_kg integer,
      height_mm integer,
      value_cents integer,
      note text,
      search_text text not null,
      version integer not null,
      created_at timestamptz not null,
      constraint vehicles_pkey primary key (shop_id, id),
      constraint vehicles_customer foreign key (shop_id, customer_id) references customers (shop_id, id),
      constraint vehicles_drivetrain check (drivetrain in ('combustion', 'hybrid', 'electric')),
      constraint vehicles_vin_verdict check (vin_verdict in ('valid', 'accept-unchecked', 'accept-warn', 'reject')),
      constraint vehicles_weight check (weight_kg between 100 and 60000),
      constraint vehicles_height check (height_mm between 500 and 5000),
      constraint vehicles_value check (value_cents >= 0),
      constraint vehicles_model_year check (model_year between 1885 and 2100)
    )`);
    await q.query('create index vehicles_of_customer on vehicles (shop_id, customer_id)');
    await q.query(
      'create unique index vehicles_vin_taken on vehicles (shop_id, vin) where (vin is not null)',
    );
    await q.query(`create table ownerships (
      shop_id uuid not null,
      id uuid not null,
      vehicle_id uuid not null,
      customer_id uuid not null,
      since timestamptz not null,
      recorded_by uuid not null,
      constraint ownerships_pkey primary key (shop_id, id),
      constraint ownerships_vehicle foreign key (shop_id, vehicle_id) references vehicles (shop_id, id),
      constraint ownerships_customer foreign key (shop_id, customer_id) references customers (shop_id, id)
    )`);
    await q.query('create index ownerships_of_vehicle on ownerships (shop_id, vehicle_id, since)');
    await q.query(`create table odometer_readings (
      shop_id uuid not null,
      id uuid not null,
      vehicle_id uuid not null,
      reading integer not null,
      unit text not null,
      read_at timestamptz not null,
      occasion text not null,
      repair_order_id uuid,
      recorded_by uuid not null,
      constraint odometer_readings_pkey primary key (shop_id, id),
      constraint odometer_readings_vehicle foreign key (shop_id, vehicle_id) references vehicles (shop_id, id),
      constraint odometer_readings_unit check (unit in ('km', 'mi')),
      constraint odometer_readings_occasion check (occasion in ('drop-off', 'pick-up', 'other')),
      constraint odometer_readings_not_negative check (reading between 0 and 3000000)
    )`);
    await q.query(
      'create index odometer_readings_of_vehicle on odometer_readings (shop_id, vehicle_id, read_at)',
    );
    await underTenancy(q, {
      documents: ['customers', 'vehicles'],
      facts: ['ownerships', 'odometer_readings'],
    });
    await makeSearchRole(q);
    await searchable(q, 'customers');
    await searchable(q, 'vehicles');
    await neverChanges(q, ['ownerships', 'odometer_readings']);
  }

  down(): Promise<void> {
    return Promise.reject(new Error('migrations only go forward; restore a backup to go back'));
  }
}
