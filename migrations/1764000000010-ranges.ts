import type { MigrationInterface, QueryRunner } from 'typeorm';
import { underTenancy } from './support/tenancy.js';

/** What a line may come to at least and at most, how often unseen checkpoints need work, and what moves all hours together. */
export class Ranges1764000000010 implements MigrationInterface {
  async up(q: QueryRunner): Promise<void> {
    await q.query(`alter table lines
      add column low_hundredths integer,
      add column high_hundredths integer,
      add column low_items_cents integer,
      add column high_items_cents integer,
      add constraint lines_spread_whole check (num_nonnulls(low_hundredths, high_hundredths, low_items_cents, high_items_cents) in (0, 4)),
      add constraint lines_spread_rises check (0 <= low_hundredths and low_hundredths <= high_hundredths
        and 0 <= low_items_cents and low_items_cents <= high_items_cents)`);
    // The setting that a shop starts from, as common sense has it: one car's hours stray a tenth from another's.
    await q.query(`alter table shops
      add column common_spread_ppm integer not null default 100000,
      add constraint shops_common_spread check (common_spread_ppm between 0 and 1000000)`);
    await q.query(`create table base_rates (
      shop_id uuid not null,
      id uuid not null,
      sequence integer not null,
      component text not null,
      from_years integer,
      to_years integer,
      chance_ppm integer not null,
      low_cents integer not null,
      likely_cents integer not null,
      high_cents integer not null,
      constraint base_rates_pkey primary key (shop_id, id),
      constraint base_rates_shop foreign key (shop_id) references shops (shop_id),
      constraint base_rates_sequence_taken unique (shop_id, sequence),
      constraint base_rates_years check (0 <= from_years and from_years <= to_years),
      constraint base_rates_chance check (chance_ppm between 0 and 1000000),
      constraint base_rates_rise check (0 <= low_cents and low_cents <= likely_cents and likely_cents <= high_cents)
    )`);
    await underTenancy(q, { documents: ['base_rates'] });
  }

  down(): Promise<void> {
    return Promise.reject(new Error('migrations only go forward; restore a backup to go back'));
  }
}
