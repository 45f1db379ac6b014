import type { MigrationInterface, QueryRunner } from 'typeorm';
import { underTenancy } from './support/tenancy.js';

/** Questions of the form "what if there were one more lift", with the shop as it was when they were asked. */
export class WhatIfs1764000000017 implements MigrationInterface {
  /** Where a question stands follows from its times. What came of it is written once, however often its job runs. */
  async up(q: QueryRunner): Promise<void> {
    await q.query(`create table what_ifs (
      shop_id uuid not null,
      id uuid not null,
      asked_by uuid not null,
      asked_at timestamptz not null,
      question jsonb not null,
      started_at timestamptz,
      ended_at timestamptz,
      answer jsonb,
      failed_reason text,
      constraint what_ifs_pkey primary key (shop_id, id),
      constraint what_ifs_shop foreign key (shop_id) references shops (shop_id),
      constraint what_ifs_asked_by foreign key (shop_id, asked_by) references staff (shop_id, id),
      constraint what_ifs_started_first check (ended_at is null or started_at is not null),
      constraint what_ifs_ended_somehow check (num_nonnulls(answer, failed_reason) = num_nonnulls(ended_at))
    )`);
    await q.query(`create function what_ifs_answered_once() returns trigger language plpgsql as $$
      begin
        if old.ended_at is null then
          return new;
        end if;
        raise exception 'what came of a question stays as it was' using errcode = '23514',
          constraint = 'what_ifs_answered_once', table = tg_table_name;
      end $$`);
    await q.query(`create trigger what_ifs_answered_once before update on what_ifs
      for each row execute function what_ifs_answered_once()`);
    await underTenancy(q, { documents: ['what_ifs'] });
  }

  down(): Promise<void> {
    return Promise.reject(new Error('migrations only go forward; restore a backup to go back'));
  }
}
