import type { MigrationInterface, QueryRunner } from 'typeorm';
import { underTenancy } from './support/tenancy.js';

/** What the plan is made by: how the shop wants it, what asked for it, what came of it, and what people keep out of it. */
export class Plans1764000000014 implements MigrationInterface {
  async up(q: QueryRunner): Promise<void> {
    await this.settings(q);
    await this.runs(q);
    await this.leftOut(q);
    await underTenancy(q, { documents: ['plan_settings', 'plan_runs', 'plan_left_out'] });
    await this.assignments(q);
  }

  /** A shop without a row has the usual settings. */
  private async settings(q: QueryRunner): Promise<void> {
    await q.query(`create table plan_settings (
      shop_id uuid not null,
      mode text not null,
      lateness integer not null,
      start_moved integer not null,
      hour_moved integer not null,
      technician_changed integer not null,
      bay_changed integer not null,
      near_minutes integer not null,
      frozen_minutes integer not null,
      horizon_days integer not null,
      version integer not null,
      constraint plan_settings_pkey primary key (shop_id),
      constraint plan_settings_shop foreign key (shop_id) references shops (shop_id),
      constraint plan_settings_mode check (mode in ('by-hand', 'propose', 'apply')),
      constraint plan_settings_weights check (lateness >= 1 and start_moved >= 0 and hour_moved >= 0
        and technician_changed >= 0 and bay_changed >= 0),
      constraint plan_settings_times check (near_minutes >= 0 and frozen_minutes >= 0 and horizon_days >= 1)
    )`);
  }

  /**
   * Without an outcome it was asked for and is still to come. What came of a run is a record; an open proposal is decided
   * once. `events_until` is the last live event that it knew of: what came later is a cause of the next run.
   */
  private async runs(q: QueryRunner): Promise<void> {
    await q.query(`create table plan_runs (
      shop_id uuid not null,
      id uuid not null,
      causes jsonb not null,
      improve boolean not null,
      asked_at timestamptz not null,
      asked_by uuid,
      events_until bigint,
      started_at timestamptz,
      ended_at timestamptz,
      outcome text,
      detail text,
      cost_before jsonb,
      cost jsonb,
      lateness_bound integer,
      solve_ms integer,
      changes jsonb not null,
      promises jsonb not null,
      late jsonb not null,
      proposal jsonb,
      decided_at timestamptz,
      decided_by uuid,
      decision text,
      constraint plan_runs_pkey primary key (shop_id, id),
      constraint plan_runs_shop foreign key (shop_id) references shops (shop_id),
      constraint plan_runs_asked_by foreign key (shop_id, asked_by) references staff (shop_id, id),
      constraint plan_runs_decided_by foreign key (shop_id, decided_by) references staff (shop_id, id),
      constraint plan_runs_outcome check (outcome in ('unchanged', 'applied', 'proposed', 'outdated', 'failed')),
      constraint plan_runs_ended check ((outcome is null) = (ended_at is null)),
      constraint plan_runs_proposal check ((proposal is not null) = (outcome is not null and outcome = 'proposed')),
      constraint plan_runs_decision check (decision in ('accepted', 'rejected', 'superseded')),
      constraint plan_runs_decided check ((decided_at is null) = (decision is null) and (decision is null or proposal is not null)
        and (decided_by is not null) = (decision is not null and decision <> 'superseded'))
    )`);
    await q.query(`create unique index plan_runs_one_open_proposal on plan_runs (shop_id)
      where (outcome = 'proposed' and decision is null)`);
    await q.query('create index plan_runs_by_events on plan_runs (shop_id, events_until)');
    await q.query(
      'create index plan_runs_asked_for on plan_runs (shop_id, asked_at) where (outcome is null)',
    );
    await q.query(`create index plan_runs_to_forget on plan_runs (shop_id, ended_at)
      where (outcome in ('unchanged', 'outdated', 'failed'))`);
    const decided = ['decided_at', 'decided_by', 'decision'];
    await q.query(`create function plan_runs_decided_once() returns trigger language plpgsql as $$
      declare
        may_go boolean := old.outcome is null or old.outcome not in ('applied', 'proposed');
        is_open boolean := old.outcome = 'proposed' and old.decision is null;
      begin
        if tg_op = 'DELETE' and may_go then
          return old;
        end if;
        if tg_op = 'UPDATE' and (old.outcome is null
             or (is_open and to_jsonb(new) - '{${decided.join(', ')}}'::text[] = to_jsonb(old) - '{${decided.join(', ')}}'::text[])) then
          return new;
        end if;
        raise exception 'what came of a run stays as it was' using errcode = '23514',
          constraint = 'plan_runs_decided_once', table = tg_table_name;
      end $$`);
    await q.query(`create trigger plan_runs_decided_once before update or delete on plan_runs
      for each row execute function plan_runs_decided_once()`);
  }

  private async leftOut(q: QueryRunner): Promise<void> {
    await q.query(`create table plan_left_out (
      shop_id uuid not null,
      id uuid not null,
      work_order_id uuid not null,
      left_out_by uuid not null,
      left_out_at timestamptz not null,
      lifted_at timestamptz,
      lifted_by uuid,
      constraint plan_left_out_pkey primary key (shop_id, id),
      constraint plan_left_out_work_order foreign key (shop_id, work_order_id) references work_orders (shop_id, id),
      constraint plan_left_out_by foreign key (shop_id, left_out_by) references staff (shop_id, id),
      constraint plan_left_out_lifted_by foreign key (shop_id, lifted_by) references staff (shop_id, id),
      constraint plan_left_out_lifted check ((lifted_at is null) = (lifted_by is null))
    )`);
    await q.query(`create unique index plan_left_out_one_live on plan_left_out (shop_id, work_order_id)
      where (lifted_at is null)`);
  }

  /**
   * Who gave a place is a person or a run of the plan. A car that is apart keeps its bay until `bay_until`, and the bay
   * is nobody else's while it waits. What is there already was laid down by hand; the default is only for these rows,
   * because an update here would not pass row-level security where the owner of the tables is no superuser.
   */
  private async assignments(q: QueryRunner): Promise<void> {
    await q.query(`alter table assignments
      alter column made_by drop not null,
      add column plan_run_id uuid,
      add column is_pinned boolean not null default true,
      add column bay_until timestamptz,
      add constraint assignments_plan_run foreign key (shop_id, plan_run_id) references plan_runs (shop_id, id),
      add constraint assignments_by_person_or_run check (num_nonnulls(made_by, plan_run_id) = 1),
      add constraint assignments_bay_until check (bay_until > ends_at),
      drop constraint assignments_bay_no_overlap,
      add constraint assignments_bay_no_overlap exclude using gist
        (shop_id with =, bay_id with =, tstzrange(starts_at, coalesce(bay_until, ends_at)) with &&) where (cancelled_at is null)`);
    await q.query('alter table assignments alter column is_pinned drop default');
  }

  down(): Promise<void> {
    return Promise.reject(new Error('migrations only go forward; restore a backup to go back'));
  }
}
