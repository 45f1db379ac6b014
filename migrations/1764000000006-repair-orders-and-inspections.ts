import type { MigrationInterface, QueryRunner } from 'typeorm';
import { neverChanges, underTenancy } from './support/tenancy.js';

/** One stay of a vehicle, the walk over it, what was seen and what is to be discussed. */
export class RepairOrdersAndInspections1764000000006 implements MigrationInterface {
  async up(q: QueryRunner): Promise<void> {
    await q.query(`create table repair_orders (
      shop_id uuid not null,
      id uuid not null,
      number integer not null,
      vehicle_id uuid not null,
      customer_id uuid not null,
      concern text not null,
      odometer_unit text not null,
      odometer_in integer not null,
      odometer_out integer,
      wants_parts_back boolean not null,
      dropped_off_at timestamptz not null,
      promised_at timestamptz,
      picked_up_at timestamptz,
      opened_by uuid not null,
      version integer not null,
      constraint repair_orders_pkey primary key (shop_id, id),
      constraint repair_orders_number_taken unique (shop_id, number),
      constraint repair_orders_of_vehicle unique (shop_id, vehicle_id, id),
      constraint repair_orders_vehicle foreign key (shop_id, vehicle_id) references vehicles (shop_id, id),
      constraint repair_orders_customer foreign key (shop_id, customer_id) references customers (shop_id, id),
      constraint repair_orders_opened_by foreign key (shop_id, opened_by) references staff (shop_id, id),
      constraint repair_orders_odometer_unit check (odometer_unit in ('km', 'mi')),
      constraint repair_orders_odometer check (odometer_in between 0 and 3000000 and odometer_out >= odometer_in)
    )`);
    await q.query(
      'create unique index repair_orders_vehicle_is_here on repair_orders (shop_id, vehicle_id) where (picked_up_at is null)',
    );
    await q.query('create index repair_orders_of_customer on repair_orders (shop_id, customer_id)');
    await q.query(`alter table odometer_readings add constraint odometer_readings_repair_order
      foreign key (shop_id, vehicle_id, repair_order_id) references repair_orders (shop_id, vehicle_id, id)`);
    await q.query('create index repair_orders_recent on repair_orders (shop_id, dropped_off_at)');
    await q.query(`create table inspections (
      shop_id uuid not null,
      id uuid not null,
      repair_order_id uuid not null,
      template_id uuid not null,
      technician_id uuid not null,
      started_at timestamptz not null,
      completed_at timestamptz,
      completed_by uuid,
      version integer not null,
      constraint inspections_pkey primary key (shop_id, id),
      constraint inspections_repair_order foreign key (shop_id, repair_order_id) references repair_orders (shop_id, id),
      constraint inspections_template foreign key (shop_id, template_id) references inspection_templates (shop_id, id),
      constraint inspections_technician foreign key (shop_id, technician_id) references staff (shop_id, id),
      constraint inspections_completed_whole check ((completed_at is null) = (completed_by is null))
    )`);
    await q.query('create index inspections_of_repair_order on inspections (shop_id, repair_order_id)');
    await q.query(`create table observations (
      shop_id uuid not null,
      id uuid not null,
      inspection_id uuid not null,
      checkpoint_id uuid not null,
      verdict text not null,
      may_drive text,
      unseen_reason text,
      look_again_on date,
      look_again_odometer integer,
      title text,
      note text,
      consequence text,
      limit_text text,
      limit_source text,
      observed_by uuid not null,
      observed_at timestamptz not null,
      version integer not null,
      constraint observations_pkey primary key (shop_id, id),
      constraint observations_inspection foreign key (shop_id, inspection_id) references inspections (shop_id, id),
      constraint observations_checkpoint foreign key (shop_id, checkpoint_id) references checkpoints (shop_id, id),
      constraint observations_once_a_checkpoint unique (shop_id, inspection_id, checkpoint_id),
      constraint observations_verdict check (verdict in ('sound', 'watch', 'repair', 'unseen')),
      constraint observations_may_drive check (may_drive in ('yes', 'to-the-shop-only', 'no')),
      constraint observations_may_drive_goes_with_verdict check ((verdict in ('watch', 'repair')) = (may_drive is not null)),
      constraint observations_unseen_reason check ((verdict = 'unseen') = (unseen_reason is not null))
    )`);
    await q.query(`create table readings (
      shop_id uuid not null,
      observation_id uuid not null,
      name text not null,
      sequence integer not null,
      value text not null,
      unit text not null,
      constraint readings_pkey primary key (shop_id, observation_id, name),
      constraint readings_value check (value ~ '^-?[0-9]{1,8}([.][0-9]{1,4})?$'),
      constraint readings_observation foreign key (shop_id, observation_id) references observations (shop_id, id)
    )`);
    await q.query(`create table findings (
      shop_id uuid not null,
      id uuid not null,
      repair_order_id uuid not null,
      vehicle_id uuid not null,
      observation_id uuid,
      work_order_id uuid,
      title text not null,
      verdict text not null,
      may_drive text not null,
      explanation text,
      consequence text,
      look_again_on date,
      look_again_odometer integer,
      found_by uuid not null,
      found_at timestamptz not null,
      withdrawn_at timestamptz,
      version integer not null,
      constraint findings_pkey primary key (shop_id, id),
      constraint findings_repair_order foreign key (shop_id, repair_order_id) references repair_orders (shop_id, id),
      constraint findings_vehicle foreign key (shop_id, vehicle_id, repair_order_id) references repair_orders (shop_id, vehicle_id, id),
      constraint findings_observation foreign key (shop_id, observation_id) references observations (shop_id, id),
      constraint findings_one_an_observation unique (shop_id, observation_id),
      constraint findings_verdict check (verdict in ('watch', 'repair')),
      constraint findings_may_drive check (may_drive in ('yes', 'to-the-shop-only', 'no'))
    )`);
    await q.query('create index findings_of_repair_order on findings (shop_id, repair_order_id)');
    await q.query('create index findings_of_vehicle on findings (shop_id, vehicle_id)');
    await q.query(`create table photos (
      shop_id uuid not null,
      id uuid not null,
      observation_id uuid,
      finding_id uuid,
      storage_key text not null,
      sha256 text not null,
      media_type text not null,
      width integer not null,
      height integer not null,
      bytes integer not null,
      taken_by uuid not null,
      added_at timestamptz not null,
      constraint photos_pkey primary key (shop_id, id),
      constraint photos_observation foreign key (shop_id, observation_id) references observations (shop_id, id),
      constraint photos_finding foreign key (shop_id, finding_id) references findings (shop_id, id),
      constraint photos_of_one_thing check ((observation_id is null) <> (finding_id is null)),
      constraint photos_once_an_observation unique (shop_id, observation_id, sha256),
      constraint photos_once_a_finding unique (shop_id, finding_id, sha256)
    )`);
    // A completed inspection is what the owner was told about; it stays as it was. The row lock makes a completion wait
    // for a last observation that is being written, and the other way round.
    await q.query(`create function inspection_still_open() returns trigger language plpgsql as $$
      declare r record; done timestamptz;
      begin
        if tg_op = 'DELETE' then r := old; else r := new; end if;
        if tg_table_name = 'observations' then
          select completed_at into done from inspections i
           where i.shop_id = r.shop_id and i.id = r.inspection_id for share;
        else
          select completed_at into done from inspections i join observations o on o.shop_id = i.shop_id and o.inspection_id = i.id
           where o.shop_id = r.shop_id and o.id = r.observation_id for share of i;
        end if;
        if done is not null then
          raise exception 'the inspection is completed' using errcode = '23514', constraint = 'inspections_completed_stays', table = tg_table_name;
        end if;
        return r;
      end $$`);
    for (const table of ['observations', 'readings']) {
      await q.query(`create trigger ${table}_inspection_open before insert or update or delete on ${table}
        for each row execute function inspection_still_open()`);
    }
    await q.query(`create trigger photos_inspection_open before insert on photos
      for each row when (new.observation_id is not null) execute function inspection_still_open()`);
    await underTenancy(q, {
      documents: ['repair_orders', 'inspections', 'observations', 'readings', 'findings'],
      facts: ['photos'],
    });
    await neverChanges(q, ['photos']);
  }

  down(): Promise<void> {
    return Promise.reject(new Error('migrations only go forward; restore a backup to go back'));
  }
}
