import type { MigrationInterface, QueryRunner } from 'typeorm';
import { neverChanges, underTenancy } from './support/tenancy.js';

/** Lines and revisions, frozen once sent; the links by which an owner decides; the decisions. */
export class EstimatesAndDecisions1764000000007 implements MigrationInterface {
  async up(q: QueryRunner): Promise<void> {
    await q.query(`create table revisions (
      shop_id uuid not null,
      id uuid not null,
      repair_order_id uuid not null,
      number integer not null,
      sent_at timestamptz,
      sent_by uuid,
      valid_until timestamptz,
      shown jsonb,
      shown_sha256 text,
      total_cents integer,
      version integer not null,
      constraint revisions_pkey primary key (shop_id, id),
      constraint revisions_repair_order foreign key (shop_id, repair_order_id) references repair_orders (shop_id, id),
      constraint revisions_number_taken unique (shop_id, repair_order_id, number),
      constraint revisions_of_repair_order unique (shop_id, id, repair_order_id),
      constraint revisions_sent_whole check ((sent_at is null) = (shown is null) and (sent_at is null) = (shown_sha256 is null)
        and (sent_at is null) = (total_cents is null) and (sent_at is null) = (sent_by is null) and (sent_at is null) = (valid_until is null))
    )`);
    await q.query(
      'create unique index revisions_one_draft on revisions (shop_id, repair_order_id) where (sent_at is null)',
    );
    await q.query(`create table lines (
      shop_id uuid not null,
      id uuid not null,
      repair_order_id uuid not null,
      revision_id uuid not null,
      sequence integer not null,
      title text not null,
      explanation text,
      consequence text,
      rate_id uuid not null,
      rate_cents_per_hour integer not null,
      entered_hundredths integer,
      entered_source text,
      constraint lines_pkey primary key (shop_id, id),
      constraint lines_revision foreign key (shop_id, revision_id, repair_order_id) references revisions (shop_id, id, repair_order_id),
      constraint lines_in_repair_order unique (shop_id, id, repair_order_id),
      constraint lines_repair_order foreign key (shop_id, repair_order_id) references repair_orders (shop_id, id),
      constraint lines_rate foreign key (shop_id, rate_id) references labour_rates (shop_id, id),
      constraint lines_sequence_taken unique (shop_id, revision_id, sequence),
      constraint lines_entered_hours check (entered_hundredths >= 0),
      constraint lines_entered_source check (entered_hundredths is null or entered_source is not null),
      constraint lines_rate_not_negative check (rate_cents_per_hour >= 0)
    )`);
    await q.query('create index lines_of_repair_order on lines (shop_id, repair_order_id)');
    await q.query(`create table line_findings (
      shop_id uuid not null,
      line_id uuid not null,
      finding_id uuid not null,
      constraint line_findings_pkey primary key (shop_id, line_id, finding_id),
      constraint line_findings_line foreign key (shop_id, line_id) references lines (shop_id, id),
      constraint line_findings_finding foreign key (shop_id, finding_id) references findings (shop_id, id)
    )`);
    await q.query('create index line_findings_of_finding on line_findings (shop_id, finding_id)');
    await q.query(`create table line_operations (
      shop_id uuid not null,
      line_id uuid not null,
      operation_id uuid not null,
      positions text[] not null,
      constraint line_operations_pkey primary key (shop_id, line_id, operation_id),
      constraint line_operations_line foreign key (shop_id, line_id) references lines (shop_id, id),
      constraint line_operations_operation foreign key (shop_id, operation_id) references operations (shop_id, id)
    )`);
    // The hours are copied here, so that a later change of the catalogue cannot reach what was offered.
    await q.query(`create table line_steps (
      shop_id uuid not null,
      line_id uuid not null,
      step_id uuid not null,
      position text not null,
      hundredths integer not null,
      constraint line_steps_pkey primary key (shop_id, line_id, step_id, position),
      constraint line_steps_line foreign key (shop_id, line_id) references lines (shop_id, id),
      constraint line_steps_step foreign key (shop_id, step_id) references steps (shop_id, id),
      constraint line_steps_hours check (hundredths > 0)
    )`);
    await q.query(`create table line_items (
      shop_id uuid not null,
      id uuid not null,
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
      expected_at timestamptz,
      constraint line_items_pkey primary key (shop_id, id),
      constraint line_items_line foreign key (shop_id, line_id) references lines (shop_id, id),
      constraint line_items_kind check (kind in ('part', 'fluid', 'sublet', 'fee')),
      constraint line_items_condition check (condition in ('new', 'used', 'rebuilt')),
      constraint line_items_source check (source in ('stock', 'supplier', 'used', 'donor-vehicle', 'customer-supplied')),
      constraint line_items_part_says_condition check (kind <> 'part' or (condition is not null and source is not null)),
      constraint line_items_quantity check (quantity_hundredths > 0),
      constraint line_items_money check (unit_price_cents >= 0 and unit_cost_cents >= 0 and core_cents >= 0)
    )`);
    await q.query('create index line_items_of_line on line_items (shop_id, line_id)');
    await q.query(`create table approval_links (
      shop_id uuid not null,
      id uuid not null,
      repair_order_id uuid not null,
      revision_id uuid not null,
      token_hash text not null,
      made_by uuid not null,
      made_at timestamptz not null,
      expires_at timestamptz not null,
      revoked_at timestamptz,
      revoked_by uuid,
      first_opened_at timestamptz,
      constraint approval_links_pkey primary key (shop_id, id),
      constraint approval_links_revision foreign key (shop_id, revision_id, repair_order_id) references revisions (shop_id, id, repair_order_id),
      constraint approval_links_to_revision unique (shop_id, id, revision_id),
      constraint approval_links_token_taken unique (shop_id, token_hash),
      constraint approval_links_revoked check ((revoked_at is null) = (revoked_by is null))
    )`);
    await q.query('create index approval_links_of_revision on approval_links (shop_id, revision_id)');
    await q.query(`create table decisions (
      shop_id uuid not null,
      id uuid not null,
      repair_order_id uuid not null,
      revision_id uuid not null,
      line_id uuid not null,
      sequence integer not null,
      answer text not null,
      shown_hundredths integer not null,
      shown_labour_cents integer not null,
      shown_parts_cents integer not null,
      shown_supplies_cents integer not null,
      shown_tax_cents integer not null,
      shown_total_cents integer not null,
      shown_steps jsonb,
      shown_sha256 text not null,
      decided_at timestamptz not null,
      channel text not null,
      link_id uuid,
      decided_by text not null,
      recorded_by uuid,
      evidence jsonb not null,
      look_again_on date,
      constraint decisions_pkey primary key (shop_id, id),
      constraint decisions_line foreign key (shop_id, line_id, repair_order_id) references lines (shop_id, id, repair_order_id),
      constraint decisions_revision foreign key (shop_id, revision_id, repair_order_id) references revisions (shop_id, id, repair_order_id),
      constraint decisions_link foreign key (shop_id, link_id, revision_id) references approval_links (shop_id, id, revision_id),
      constraint decisions_one_at_a_time unique (shop_id, line_id, sequence),
      constraint decisions_as_answered unique (shop_id, id, line_id, answer),
      constraint decisions_answer check (answer in ('approved', 'declined', 'deferred')),
      constraint decisions_channel check (channel in ('link', 'phone', 'in-person')),
      constraint decisions_by_link_or_staff check ((channel = 'link') = (link_id is not null) and (channel = 'link') = (recorded_by is null)),
      constraint decisions_adds_up check (shown_total_cents = shown_labour_cents + shown_parts_cents + shown_supplies_cents + shown_tax_cents)
    )`);
    await q.query('create index decisions_of_repair_order on decisions (shop_id, repair_order_id)');
    await this.sentStays(q);
    await underTenancy(q, {
      documents: [
        'revisions',
        'lines',
        'line_findings',
        'line_operations',
        'line_steps',
        'line_items',
        'approval_links',
      ],
      facts: ['decisions'],
    });
    await neverChanges(q, ['decisions']);
  }

  /** The row lock makes the sending wait for a last line that is being written, and the other way round. */
  private async sentStays(q: QueryRunner): Promise<void> {
    await q.query(`create function sent_revision_stays() returns trigger language plpgsql as $$
      declare r record; sent timestamptz;
      begin
        -- Where the row is and where it goes: a line moved into a sent revision changes it as much.
        for r in select to_jsonb(old) as was where tg_op <> 'INSERT' union all select to_jsonb(new) where tg_op <> 'DELETE' loop
          if tg_table_name = 'revisions' then
            sent := old.sent_at;
          elsif tg_table_name = 'lines' then
            select sent_at into sent from revisions v
             where v.shop_id = (r.was->>'shop_id')::uuid and v.id = (r.was->>'revision_id')::uuid for share;
          else
            select v.sent_at into sent from revisions v join lines l on l.shop_id = v.shop_id and l.revision_id = v.id
             where l.shop_id = (r.was->>'shop_id')::uuid and l.id = (r.was->>'line_id')::uuid for share of v;
          end if;
          if sent is not null then
            raise exception 'a sent revision stays as it was' using errcode = '23514', constraint = 'revisions_sent_stays', table = tg_table_name;
          end if;
        end loop;
        if tg_op = 'DELETE' then return old; end if;
        return new;
      end $$`);
    await q.query(`create trigger revisions_sent_stays before update or delete on revisions
      for each row execute function sent_revision_stays()`);
    for (const table of ['lines', 'line_findings', 'line_operations', 'line_steps', 'line_items']) {
      await q.query(`create trigger ${table}_sent_stays before insert or update or delete on ${table}
        for each row execute function sent_revision_stays()`);
    }
  }

  down(): Promise<void> {
    return Promise.reject(new Error('migrations only go forward; restore a backup to go back'));
  }
}
