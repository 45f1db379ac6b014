import type { MigrationInterface, QueryRunner } from 'typeorm';
import { underTenancy } from './support/tenancy.js';

/** How prices follow from costs, book times for sets of operations, rates of single steps, discounts and labour without charge. */
export class Pricing1764000000009 implements MigrationInterface {
  async up(q: QueryRunner): Promise<void> {
    await this.rules(q);
    await this.catalogue(q);
    await this.lines(q);
    await this.offers(q);
  }

  /** The defaults are what was the case before there was a choice. */
  private async rules(q: QueryRunner): Promise<void> {
    await q.query(`alter table shops
      add column price_matrix jsonb,
      add column default_margin_ppm integer,
      add column sublet_markup_ppm integer not null default 0,
      add column supplies_base text not null default 'labour',
      add column taxes_combined boolean not null default false,
      add constraint shops_price_rules check (default_margin_ppm >= 0 and default_margin_ppm <= 999000 and sublet_markup_ppm >= 0),
      add constraint shops_supplies_base check (supplies_base in ('labour', 'parts', 'labour-and-parts'))`);
  }

  private async catalogue(q: QueryRunner): Promise<void> {
    await q.query(`alter table steps
      add column rate_id uuid,
      add constraint steps_rate foreign key (shop_id, rate_id) references labour_rates (shop_id, id)`);
    await q.query(`create table packages (
      shop_id uuid not null,
      id uuid not null,
      name text not null,
      hundredths integer not null,
      is_active boolean not null,
      version integer not null,
      constraint packages_pkey primary key (shop_id, id),
      constraint packages_shop foreign key (shop_id) references shops (shop_id),
      constraint packages_name_taken unique (shop_id, name),
      constraint packages_hours check (hundredths > 0)
    )`);
    await q.query(`create table package_operations (
      shop_id uuid not null,
      package_id uuid not null,
      operation_id uuid not null,
      positions text[] not null,
      sequence integer not null,
      constraint package_operations_pkey primary key (shop_id, package_id, operation_id),
      constraint package_operations_package foreign key (shop_id, package_id) references packages (shop_id, id),
      constraint package_operations_operation foreign key (shop_id, operation_id) references operations (shop_id, id)
    )`);
    await underTenancy(q, { documents: ['packages', 'package_operations'] });
  }

  /** What a line was priced by is copied to it, so that later rules cannot reach what was offered. */
  private async lines(q: QueryRunner): Promise<void> {
    await q.query(`alter table line_steps
      add column rate_id uuid,
      add column rate_cents_per_hour integer,
      add constraint line_steps_rate foreign key (shop_id, rate_id) references labour_rates (shop_id, id),
      add constraint line_steps_rate_whole check ((rate_id is null) = (rate_cents_per_hour is null) and rate_cents_per_hour >= 0)`);
    await q.query(`alter table line_items
      add column price_rule text not null default 'entered',
      add column list_cents integer,
      add column margin_ppm integer,
      add column price_breakdown jsonb,
      add constraint line_items_price_rule check (price_rule in ('entered', 'list', 'matrix', 'margin', 'sublet-markup')),
      add constraint line_items_price_basis check (list_cents >= 0 and margin_ppm >= 0 and margin_ppm <= 999000)`);
    await q.query(`alter table lines
      add column no_charge text,
      add column discount_labour_ppm integer,
      add column discount_items_ppm integer,
      add column discount_items_cents integer,
      add column discount_reason text,
      add constraint lines_no_charge check (no_charge in ('warranty', 'goodwill', 'comeback')),
      add constraint lines_discount check (discount_labour_ppm >= 0 and discount_labour_ppm <= 1000000
        and discount_items_ppm >= 0 and discount_items_ppm <= 1000000 and discount_items_cents >= 0),
      add constraint lines_discount_has_reason check (discount_reason is not null
        or num_nonnulls(discount_labour_ppm, discount_items_ppm, discount_items_cents) = 0)`);
  }

  private async offers(q: QueryRunner): Promise<void> {
    await q.query(`alter table revisions
      add column discount_labour_ppm integer,
      add column discount_items_ppm integer,
      add column discount_cents integer,
      add column discount_reason text,
      add constraint revisions_discount check (discount_labour_ppm >= 0 and discount_labour_ppm <= 1000000
        and discount_items_ppm >= 0 and discount_items_ppm <= 1000000 and discount_cents >= 0),
      add constraint revisions_discount_of_one_kind check (discount_cents is null
        or num_nonnulls(discount_labour_ppm, discount_items_ppm) = 0),
      add constraint revisions_discount_has_reason check (discount_reason is not null
        or num_nonnulls(discount_labour_ppm, discount_items_ppm, discount_cents) = 0)`);
    // What was agreed to before is the base of what comes next: an amount off the order is given once, and floor and cap
    // of supplies hold over all revisions. A null means what was the case before there was any of this.
    await q.query(`alter table decisions
      add column shown_discount_cents integer,
      add column shown_order_discount_cents integer,
      add column shown_supplies_base_cents integer`);
  }

  down(): Promise<void> {
    return Promise.reject(new Error('migrations only go forward; restore a backup to go back'));
  }
}
