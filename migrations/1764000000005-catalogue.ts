import type { MigrationInterface, QueryRunner } from 'typeorm';
import { neverChanges, underTenancy } from './support/tenancy.js';

/** The shop's own operations, made of steps that they share, and its inspection templates. */
export class Catalogue1764000000005 implements MigrationInterface {
  async up(q: QueryRunner): Promise<void> {
    await q.query(`create table steps (
      shop_id uuid not null,
      id uuid not null,
      code text not null,
      name text not null,
      hundredths integer not null,
      version integer not null,
      constraint steps_pkey primary key (shop_id, id),
      constraint steps_shop foreign key (shop_id) references shops (shop_id),
      constraint steps_code_taken unique (shop_id, code),
      constraint steps_hours check (hundredths > 0)
    )`);
    await q.query(`create table operations (
      shop_id uuid not null,
      id uuid not null,
      code text not null,
      name text not null,
      needs_lift boolean not null,
      bay_kinds text[] not null,
      skills text[] not null,
      cautions text[] not null,
      is_active boolean not null,
      version integer not null,
      constraint operations_pkey primary key (shop_id, id),
      constraint operations_shop foreign key (shop_id) references shops (shop_id),
      constraint operations_code_taken unique (shop_id, code),
      constraint operations_bay_kinds check (bay_kinds <@ array['lift', 'flat', 'alignment'])
    )`);
    await q.query(`create table operation_steps (
      shop_id uuid not null,
      operation_id uuid not null,
      step_id uuid not null,
      at text not null,
      sequence integer not null,
      constraint operation_steps_pkey primary key (shop_id, operation_id, step_id),
      constraint operation_steps_operation foreign key (shop_id, operation_id) references operations (shop_id, id),
      constraint operation_steps_step foreign key (shop_id, step_id) references steps (shop_id, id),
      constraint operation_steps_at check (at in ('chosen', 'corner', 'axle', 'vehicle'))
    )`);
    await q.query(`create table operation_tools (
      shop_id uuid not null,
      operation_id uuid not null,
      tool_id uuid not null,
      constraint operation_tools_pkey primary key (shop_id, operation_id, tool_id),
      constraint operation_tools_operation foreign key (shop_id, operation_id) references operations (shop_id, id),
      constraint operation_tools_tool foreign key (shop_id, tool_id) references special_tools (shop_id, id)
    )`);
    await q.query(`create table inspection_templates (
      shop_id uuid not null,
      id uuid not null,
      name text not null,
      edition integer not null,
      is_current boolean not null,
      created_at timestamptz not null,
      constraint inspection_templates_pkey primary key (shop_id, id),
      constraint inspection_templates_shop foreign key (shop_id) references shops (shop_id),
      constraint inspection_templates_edition_taken unique (shop_id, name, edition)
    )`);
    await q.query(`create table stations (
      shop_id uuid not null,
      id uuid not null,
      template_id uuid not null,
      sequence integer not null,
      name text not null,
      constraint stations_pkey primary key (shop_id, id),
      constraint stations_template foreign key (shop_id, template_id) references inspection_templates (shop_id, id),
      constraint stations_sequence_taken unique (shop_id, template_id, sequence),
      constraint stations_of_template unique (shop_id, id, template_id)
    )`);
    await q.query(`create table checkpoints (
      shop_id uuid not null,
      id uuid not null,
      template_id uuid not null,
      station_id uuid not null,
      sequence integer not null,
      component text not null,
      position text not null,
      reading_name text,
      reading_unit text,
      limit_comparator text,
      limit_value text,
      limit_source text,
      constraint checkpoints_pkey primary key (shop_id, id),
      constraint checkpoints_station foreign key (shop_id, station_id, template_id) references stations (shop_id, id, template_id),
      constraint checkpoints_template foreign key (shop_id, template_id) references inspection_templates (shop_id, id),
      constraint checkpoints_sequence_taken unique (shop_id, station_id, sequence),
      constraint checkpoints_limit check ((limit_value is null) = (limit_comparator is null) and (limit_value is null) = (limit_source is null)),
      constraint checkpoints_limit_comparator check (limit_comparator in ('min', 'max')),
      constraint checkpoints_limit_needs_reading check (limit_value is null or reading_name is not null),
      constraint checkpoints_reading check ((reading_name is null) = (reading_unit is null))
    )`);
    await underTenancy(q, {
      documents: ['steps', 'operations', 'operation_steps', 'operation_tools', 'inspection_templates'],
      facts: ['stations', 'checkpoints'],
    });
    // A saved template stays: what was looked at must be readable years later. A change is a new edition.
    await neverChanges(q, ['stations', 'checkpoints']);
  }

  down(): Promise<void> {
    return Promise.reject(new Error('migrations only go forward; restore a backup to go back'));
  }
}
