import type { MigrationInterface, QueryRunner } from 'typeorm';
import { neverChanges, underTenancy } from './support/tenancy.js';

/** Extras that are charged only if a named thing happens: what was offered, what the owner said, what happened. */
export class Contingencies1764000000012 implements MigrationInterface {
  async up(q: QueryRunner): Promise<void> {
    await this.offered(q);
    await this.agreedTo(q);
    await this.photos(q);
    await this.happened(q);
    await underTenancy(q, {
      documents: ['contingencies', 'contingency_items'],
      facts: ['contingency_decisions', 'contingency_triggers'],
    });
    await neverChanges(q, ['contingency_decisions', 'contingency_triggers']);
    await this.inTurn(q);
  }

  private async offered(q: QueryRunner): Promise<void> {
    await q.query(`create table contingencies (
      shop_id uuid not null,
      id uuid not null,
      line_id uuid not null,
      sequence integer not null,
      what text not null,
      chance_ppm integer not null,
      hundredths integer not null,
      cap_cents integer not null,
      constraint contingencies_pkey primary key (shop_id, id),
      constraint contingencies_line foreign key (shop_id, line_id) references lines (shop_id, id),
      constraint contingencies_of_line unique (shop_id, id, line_id),
      constraint contingencies_as_capped unique (shop_id, id, line_id, cap_cents),
      constraint contingencies_sequence_taken unique (shop_id, line_id, sequence),
      constraint contingencies_chance check (chance_ppm >= 1 and chance_ppm <= 999999),
      constraint contingencies_hours check (hundredths >= 0),
      constraint contingencies_cap check (cap_cents > 0)
    )`);
    await q.query(`create table contingency_items (
      shop_id uuid not null,
      id uuid not null,
      contingency_id uuid not null,
      line_id uuid not null,
      sequence integer not null,
      kind text not null,
      name text not null,
      part_number text,
      condition text,
      source text,
      quantity_hundredths integer not null,
      unit_price_cents integer not null,
      unit_cost_cents integer,
      core_cents integer not null,
      constraint contingency_items_pkey primary key (shop_id, id),
      constraint contingency_items_contingency foreign key (shop_id, contingency_id, line_id)
        references contingencies (shop_id, id, line_id),
      constraint contingency_items_sequence_taken unique (shop_id, contingency_id, sequence),
      constraint contingency_items_kind check (kind in ('part', 'fluid', 'sublet', 'fee')),
      constraint contingency_items_condition check (condition in ('new', 'used', 'rebuilt')),
      constraint contingency_items_source check (source in ('stock', 'supplier', 'used', 'donor-vehicle', 'customer-supplied')),
      constraint contingency_items_part_says_condition check (kind <> 'part' or (condition is not null and source is not null)),
      constraint contingency_items_quantity check (quantity_hundredths > 0),
      constraint contingency_items_money check (unit_price_cents >= 0 and unit_cost_cents >= 0 and core_cents >= 0)
    )`);
    for (const table of ['contingencies', 'contingency_items']) {
      await q.query(`create trigger ${table}_sent_stays before insert or update or delete on ${table}
        for each row execute function sent_revision_stays()`);
    }
  }

  /** The cap that was shown is part of the key that the answer points to: it is the cap that was offered. */
  private async agreedTo(q: QueryRunner): Promise<void> {
    await q.query(`create table contingency_decisions (
      shop_id uuid not null,
      id uuid not null,
      repair_order_id uuid not null,
      revision_id uuid not null,
      line_id uuid not null,
      contingency_id uuid not null,
      sequence integer not null,
      agreed boolean not null,
      cap_cents integer not null,
      because text not null,
      shown_sha256 text not null,
      decided_at timestamptz not null,
      channel text not null,
      link_id uuid,
      decided_by text not null,
      recorded_by uuid,
      evidence jsonb not null,
      constraint contingency_decisions_pkey primary key (shop_id, id),
      constraint contingency_decisions_contingency foreign key (shop_id, contingency_id, line_id, cap_cents)
        references contingencies (shop_id, id, line_id, cap_cents),
      constraint contingency_decisions_line foreign key (shop_id, line_id, repair_order_id)
        references lines (shop_id, id, repair_order_id),
      constraint contingency_decisions_revision foreign key (shop_id, revision_id, repair_order_id)
        references revisions (shop_id, id, repair_order_id),
      constraint contingency_decisions_link foreign key (shop_id, link_id, revision_id)
        references approval_links (shop_id, id, revision_id),
      constraint contingency_decisions_one_at_a_time unique (shop_id, contingency_id, sequence),
      constraint contingency_decisions_as_answered unique (shop_id, id, contingency_id, cap_cents, agreed),
      constraint contingency_decisions_because check (because in ('answered', 'line-given-up')),
      constraint contingency_decisions_channel check (channel in ('link', 'phone', 'in-person')),
      constraint contingency_decisions_by_link_or_staff check ((channel = 'link') = (link_id is not null) and (channel = 'link') = (recorded_by is null))
    )`);
    await q.query(
      'create index contingency_decisions_of_repair_order on contingency_decisions (shop_id, repair_order_id)',
    );
  }

  private async photos(q: QueryRunner): Promise<void> {
    await q.query(`alter table photos
      add column contingency_id uuid,
      drop constraint photos_of_one_thing,
      add constraint photos_of_one_thing check (num_nonnulls(observation_id, finding_id, contingency_id) = 1),
      add constraint photos_contingency foreign key (shop_id, contingency_id) references contingencies (shop_id, id),
      add constraint photos_once_a_contingency unique (shop_id, contingency_id, sha256),
      add constraint photos_of_contingency unique (shop_id, id, contingency_id)`);
  }

  /** Once for each contingency, only on the strength of a yes to this cap, with a photo of it, and never above the cap. */
  private async happened(q: QueryRunner): Promise<void> {
    await q.query(
      'alter table work_orders add constraint work_orders_of_line unique (shop_id, id, line_id, repair_order_id)',
    );
    await q.query(`create table contingency_triggers (
      shop_id uuid not null,
      id uuid not null,
      repair_order_id uuid not null,
      line_id uuid not null,
      work_order_id uuid not null,
      contingency_id uuid not null,
      agreement_id uuid not null,
      agreed boolean not null,
      cap_cents integer not null,
      reason text not null,
      photo_id uuid not null,
      hundredths integer not null,
      items jsonb not null,
      labour_cents integer not null,
      parts_cents integer not null,
      core_cents integer not null,
      supplies_cents integer not null,
      tax_cents integer not null,
      total_cents integer not null,
      taxes jsonb not null,
      uncapped_cents integer not null,
      supplies_base_cents integer not null,
      breakdown jsonb not null,
      triggered_at timestamptz not null,
      triggered_by uuid not null,
      constraint contingency_triggers_pkey primary key (shop_id, id),
      constraint contingency_triggers_once unique (shop_id, contingency_id),
      constraint contingency_triggers_contingency foreign key (shop_id, contingency_id, line_id)
        references contingencies (shop_id, id, line_id),
      constraint contingency_triggers_agreed foreign key (shop_id, agreement_id, contingency_id, cap_cents, agreed)
        references contingency_decisions (shop_id, id, contingency_id, cap_cents, agreed),
      constraint contingency_triggers_work_order foreign key (shop_id, work_order_id, line_id, repair_order_id)
        references work_orders (shop_id, id, line_id, repair_order_id),
      constraint contingency_triggers_photo foreign key (shop_id, photo_id, contingency_id)
        references photos (shop_id, id, contingency_id),
      constraint contingency_triggers_by foreign key (shop_id, triggered_by) references staff (shop_id, id),
      constraint contingency_triggers_agreed_only check (agreed),
      constraint contingency_triggers_within_cap check (total_cents <= cap_cents and total_cents <= uncapped_cents),
      constraint contingency_triggers_adds_up check (total_cents = labour_cents + parts_cents + core_cents + supplies_cents + tax_cents),
      constraint contingency_triggers_amounts check (hundredths >= 0 and labour_cents >= 0 and parts_cents >= 0 and core_cents >= 0
        and supplies_cents >= 0 and tax_cents >= 0 and supplies_base_cents >= 0)
    )`);
    await q.query(
      'create index contingency_triggers_of_repair_order on contingency_triggers (shop_id, repair_order_id)',
    );
    await q.query(
      'create index contingency_triggers_of_work_order on contingency_triggers (shop_id, work_order_id)',
    );
  }

  /**
   * Of an answer and a trigger one comes first, and the other sees it: what happened stands on the latest answer, and no
   * answer comes after it. The lock is on the contingency; the look after it is a statement of its own.
   */
  private async inTurn(q: QueryRunner): Promise<void> {
    await q.query(`create function contingency_in_turn() returns trigger language plpgsql as $$
      begin
        perform 1 from contingencies c where c.shop_id = new.shop_id and c.id = new.contingency_id for no key update;
        if tg_table_name = 'contingency_decisions' then
          if exists (select 1 from contingency_triggers t
                      where t.shop_id = new.shop_id and t.contingency_id = new.contingency_id) then
            raise exception 'it has happened and stays charged' using errcode = '23514',
              constraint = 'contingency_decisions_before_trigger', table = tg_table_name;
          end if;
        elsif exists (select 1 from contingency_decisions agreed
                        join contingency_decisions later on later.shop_id = agreed.shop_id
                         and later.contingency_id = agreed.contingency_id and later.sequence > agreed.sequence
                       where agreed.shop_id = new.shop_id and agreed.id = new.agreement_id) then
          raise exception 'the latest answer counts' using errcode = '23514',
            constraint = 'contingency_triggers_on_latest_answer', table = tg_table_name;
        end if;
        return new;
      end $$`);
    for (const table of ['contingency_decisions', 'contingency_triggers']) {
      await q.query(`create trigger ${table}_in_turn before insert on ${table}
        for each row execute function contingency_in_turn()`);
    }
  }

  down(): Promise<void> {
    return Promise.reject(new Error('migrations only go forward; restore a backup to go back'));
  }
}
