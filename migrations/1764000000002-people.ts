import type { MigrationInterface, QueryRunner } from 'typeorm';
import { underTenancy } from './support/tenancy.js';

/** Staff, their sessions, and the tablets enrolled for the bays. */
export class People1764000000002 implements MigrationInterface {
  async up(q: QueryRunner): Promise<void> {
    await q.query(`create table staff (
      shop_id uuid not null,
      id uuid not null,
      display_name text not null,
      email text,
      roles text[] not null,
      password_hash text,
      pin_hash text,
      is_active boolean not null,
      failed_sign_ins integer not null,
      locked_until timestamptz,
      failed_pins integer not null default 0,
      pin_locked_until timestamptz,
      version integer not null,
      created_at timestamptz not null,
      constraint staff_pkey primary key (shop_id, id),
      constraint staff_shop foreign key (shop_id) references shops (shop_id),
      constraint staff_roles check (roles <@ array['front-desk', 'technician', 'manager', 'administrator'] and cardinality(roles) > 0),
      constraint staff_email_lower check (email = lower(email)),
      constraint staff_email_taken unique (shop_id, email)
    )`);
    await q.query('create index staff_email on staff (email)');
    await q.query(`create table devices (
      shop_id uuid not null,
      id uuid not null,
      name text not null,
      bay_id uuid,
      token_hash text not null,
      enrolled_by uuid not null,
      enrolled_at timestamptz not null,
      revoked_at timestamptz,
      constraint devices_pkey primary key (shop_id, id),
      constraint devices_enrolled_by foreign key (shop_id, enrolled_by) references staff (shop_id, id),
      constraint devices_token_taken unique (shop_id, token_hash)
    )`);
    await q.query(`create table sessions (
      shop_id uuid not null,
      id uuid not null,
      staff_id uuid not null,
      device_id uuid,
      how text not null,
      started_at timestamptz not null,
      expires_at timestamptz not null,
      ended_at timestamptz,
      end_reason text,
      constraint sessions_pkey primary key (shop_id, id),
      constraint sessions_staff foreign key (shop_id, staff_id) references staff (shop_id, id),
      constraint sessions_device foreign key (shop_id, device_id) references devices (shop_id, id),
      constraint sessions_how check (how in ('password', 'pin')),
      constraint sessions_end_reason check ((ended_at is null) = (end_reason is null))
    )`);
    await q.query('create index sessions_of_staff on sessions (shop_id, staff_id)');
    await q.query(`create table refresh_tokens (
      shop_id uuid not null,
      token_hash text not null,
      session_id uuid not null,
      issued_at timestamptz not null,
      expires_at timestamptz not null,
      used_at timestamptz,
      constraint refresh_tokens_pkey primary key (shop_id, token_hash),
      constraint refresh_tokens_session foreign key (shop_id, session_id) references sessions (shop_id, id)
    )`);
    await q.query('create index refresh_tokens_of_session on refresh_tokens (shop_id, session_id)');
    await underTenancy(q, { documents: ['staff', 'devices', 'sessions', 'refresh_tokens'] });
    // Before sign-in no shop is known. Whoever gives an address may see the rows of exactly that address, nothing else.
    await q.query(`create policy staff_of_the_address_signing_in on staff for select
      using (email = nullif(current_setting('app.sign_in_email', true), ''))`);
    await q.query(`create policy shops_of_the_address_signing_in on shops for select
      using (exists (select 1 from staff s where s.shop_id = shops.shop_id
                       and s.email = nullif(current_setting('app.sign_in_email', true), '')))`);
  }

  down(): Promise<void> {
    return Promise.reject(new Error('migrations only go forward; restore a backup to go back'));
  }
}
