import type { MigrationInterface, QueryRunner } from 'typeorm';
import { neverChanges, underTenancy } from './support/tenancy.js';

/** What is heard about when a part or sublet work will come, after its revision was sent and stays as it was. */
export class PartExpectations1764000000018 implements MigrationInterface {
  /** The highest sequence counts; without a time nobody knows any more. */
  async up(q: QueryRunner): Promise<void> {
    await q.query(`create table part_expectations (
      shop_id uuid not null,
      id uuid not null,
      line_item_id uuid not null,
      sequence integer not null,
      expected_at timestamptz,
      told_at timestamptz not null,
      told_by uuid not null,
      note text,
      constraint part_expectations_pkey primary key (shop_id, id),
      constraint part_expectations_line_item foreign key (shop_id, line_item_id) references line_items (shop_id, id),
      constraint part_expectations_told_by foreign key (shop_id, told_by) references staff (shop_id, id),
      constraint part_expectations_one_at_a_time unique (shop_id, line_item_id, sequence)
    )`);
    await underTenancy(q, { facts: ['part_expectations'] });
    await neverChanges(q, ['part_expectations']);
  }

  down(): Promise<void> {
    return Promise.reject(new Error('migrations only go forward; restore a backup to go back'));
  }
}
