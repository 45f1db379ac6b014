import { randomUUID } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import { pino } from 'pino';
import request, { type Test } from 'supertest';
import type { Role } from '#libs/access';
import { StillClock } from '#server/platform/clock';
import { readConfig } from '#server/platform/config';
import { AccessTokens } from '#server/platform/http/access-token';
import { newId } from '#server/platform/ids';
import { startServer, type RunningServer } from '#server/start-server';
import { freshDatabase } from './database.js';

const SECRET = 'a-secret-only-for-tests-0123456789abcdef';

export interface Person {
  readonly staffId: string;
  readonly token: string;
  get(path: string, headers?: Record<string, string>): Test;
  post(path: string, body?: object, headers?: Record<string, string>): Test;
  patch(path: string, body: object, version: number | string): Test;
  put(path: string, body: object, version: number | string): Test;
  delete(path: string, body?: object, headers?: Record<string, string>): Test;
}

/** The server in this process on a database of its own, with one shop and a person for every role. */
export interface ShopUnderTest {
  readonly server: RunningServer;
  readonly clock: StillClock;
  readonly shopId: string;
  readonly url: string;
  /** Where its photos lie. */
  readonly dataDir: string;
  readonly frontDesk: Person;
  readonly technician: Person;
  readonly secondTechnician: Person;
  readonly manager: Person;
  readonly administrator: Person;
  /** Past row-level security, for looking at what is stored and for setting things up. */
  sql<T extends object = Record<string, unknown>>(text: string, values?: unknown[]): Promise<T[]>;
  addShop(slug: string): Promise<{ shopId: string; person(role: Role, name?: string): Promise<Person> }>;
  addPerson(role: Role, name?: string): Promise<Person>;
  stop(): Promise<void>;
}

/** Queued jobs run when a spec says so (`runJobsNow`), or with `backgroundWork` as they come. */
export async function shopUnderTest(
  o: { now?: string; backgroundWork?: boolean } = {},
): Promise<ShopUnderTest> {
  const database = await freshDatabase();
  const dataDir = mkdtempSync(join(tmpdir(), 'bayledger-test-'));
  const clock = new StillClock(new Date(o.now ?? '2026-03-11T08:00:00Z'));
  const config = readConfig({
    DATABASE_URL: database.url,
    PORT: '0',
    DATA_DIR: dataDir,
    JWT_SECRET: SECRET,
    DEMO_SHOP: 'no',
    BACKGROUND_WORK: o.backgroundWork === true ? 'on' : 'off',
  });
  const server = await startServer(config, { clock, log: pino({ level: 'silent' }) });
  const pool = new pg.Pool({ connectionString: database.url, max: 2 });
  pool.on('error', () => undefined);
  const sql = async <T extends object>(text: string, values: unknown[] = []): Promise<T[]> =>
    (await pool.query<T>(text, values)).rows;
  const addShop: ShopUnderTest['addShop'] = async (slug) => {
    const shopId = await insertShop(sql, slug, clock.now());
    return {
      shopId,
      person: (role, name) => insertPerson(sql, server.url, shopId, role, name ?? role, clock.now()),
    };
  };
  const shop = await addShop('test-yard');
  return {
    server,
    clock,
    shopId: shop.shopId,
    url: server.url,
    dataDir,
    frontDesk: await shop.person('front-desk', 'Wenna'),
    technician: await shop.person('technician', 'Bram'),
    secondTechnician: await shop.person('technician', 'Saffi'),
    manager: await shop.person('manager', 'Orla'),
    administrator: await shop.person('administrator', 'Tomas'),
    sql,
    addShop,
    addPerson: (role, name) => shop.person(role, name),
    stop: async () => {
      await server.stop();
      await pool.end();
      await database.drop();
      rmSync(dataDir, { recursive: true, force: true });
    },
  };
}

type Sql = (text: string, values?: unknown[]) => Promise<object[]>;

async function insertShop(sql: Sql, slug: string, now: Date): Promise<string> {
  const shopId = newId();
  await sql(
    `insert into shops (shop_id, slug, name, phone, address, time_zone, currency, jurisdiction, day_starts_minute, day_ends_minute,
       tax_rounding, supplies_rate_ppm, supplies_floor_cents, supplies_cap_cents, link_valid_hours, is_demo, version, created_at)
     values ($1, $2, 'Kestrel Yard', '+12025550100', null, 'America/New_York', 'USD', null, 420, 1080, 'invoice', 60000, 0, 3500, 168, false, 1, $3)`,
    [shopId, slug, now],
  );
  await sql(
    `insert into labour_rates (shop_id, id, name, cents_per_hour, is_default) values ($1, $2, 'General repair', 12950, true)`,
    [shopId, newId()],
  );
  await sql(
    `insert into taxes (shop_id, id, name, rate_ppm, applies_to) values ($1, $2, 'Sales tax', 72500, array['part', 'fluid', 'supplies'])`,
    [shopId, newId()],
  );
  return shopId;
}

async function insertPerson(
  sql: Sql,
  url: string,
  shopId: string,
  role: Role,
  name: string,
  now: Date,
): Promise<Person> {
  const staffId = newId();
  await sql(
    `insert into staff (shop_id, id, display_name, email, roles, password_hash, pin_hash, is_active, failed_sign_ins, locked_until, version, created_at)
     values ($1, $2, $3, $4, $5, null, null, true, 0, null, 1, $6)`,
    [shopId, staffId, name, `${staffId}@example.test`, [role], now],
  );
  const token = new AccessTokens(SECRET).issue(shopId, {
    kind: 'staff',
    staffId,
    displayName: name,
    roles: [role],
    sessionId: newId(),
  });
  return personWith(url, staffId, token);
}

export function personWith(url: string, staffId: string, token: string): Person {
  const api = request(`${url}/api/v1`);
  const signed = (test: Test, headers: Record<string, string> = {}): Test =>
    test.set('authorization', `Bearer ${token}`).set(headers);
  const match = (version: number | string): Record<string, string> => ({
    'if-match': version === '*' ? '*' : `"${version}"`,
  });
  return {
    staffId,
    token,
    get: (path, headers) => signed(api.get(path), headers),
    post: (path, body = {}, headers = {}) =>
      signed(api.post(path), { 'idempotency-key': `"${randomUUID()}"`, ...headers }).send(body),
    patch: (path, body, version) => signed(api.patch(path), match(version)).send(body),
    put: (path, body, version) => signed(api.put(path), match(version)).send(body),
    delete: (path, body, headers) =>
      body ? signed(api.delete(path), headers).send(body) : signed(api.delete(path), headers),
  };
}
