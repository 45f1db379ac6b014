import jwt from 'jsonwebtoken';
import pg from 'pg';
import { ok } from '#libs/kernel';
import type { Config } from '#server/platform/config';
import { systemContext } from '#server/platform/context';
import { UnitOfWork } from '#server/platform/database/unit-of-work';
import { CONFIG } from '#server/platform/tokens';
import { testServer } from '../support/database.js';
import { LiveReader } from '../support/live-reader.js';
import { personWith, shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

const DAY = 86_400_000;

describe('the server and its database come and go', () => {
  let shop: ShopUnderTest;
  let maintenance: pg.Client;
  let bays = 0;
  beforeAll(async () => {
    shop = await shopUnderTest();
    maintenance = new pg.Client({ ...testServer(), database: 'postgres' });
    await maintenance.connect();
  });
  afterAll(async () => {
    await maintenance.end();
    await shop.stop();
  });
  const newBay = (): { number: number; name: string; kind: string } => {
    bays += 1;
    return { number: bays, name: `Bay ${bays}`, kind: 'flat' };
  };
  const databaseName = async (): Promise<string> =>
    (await shop.sql<{ name: string }>('select current_database() as name'))[0]?.name ?? '';

  it('a connection that breaks between two statements of an act is the database being away, not a mistake', async () => {
    const uow = shop.server.app.get(UnitOfWork);
    for (const pauseMs of [0, 100]) {
      const act = uow.run(systemContext(shop.shopId, 'test'), async (tx) => {
        const row = await tx.one<{ pid: number }>('select pg_backend_pid() as pid');
        await maintenance.query('select pg_terminate_backend($1)', [row?.pid]);
        await new Promise((resolve) => setTimeout(resolve, pauseMs));
        return ok(await tx.one('select 1'));
      });
      await expect(act).rejects.toMatchObject({ fault: { code: 'database-unavailable' } });
    }
  });

  it('without its database the server says so and when to come again, and goes on as soon as it is back', async () => {
    const name = await databaseName();
    const watcher = await LiveReader.open(shop.url, shop.manager);
    await maintenance.query(`alter database ${name} allow_connections false`);
    await maintenance.query('select pg_terminate_backend(pid) from pg_stat_activity where datname = $1', [
      name,
    ]);
    try {
      for (const path of ['/health', '/bays']) {
        const away = await shop.manager.get(path).expect(503);
        expect(away.body.code).toBe('database-unavailable');
        expect(away.headers['retry-after']).toBe('2');
      }
      await shop.manager.post('/bays', newBay()).expect(503);
    } finally {
      await maintenance.query(`alter database ${name} allow_connections true`);
    }
    const { body } = await shop.manager.get('/health').expect(200);
    expect(body.status).toBe('ok');
    expect([0, null]).toContain(body.givenUpJobs);
    await shop.manager.post('/bays', newBay()).expect(201);
    await watcher.until((events) => events.some(({ data }) => data.kind === 'bay'), 10_000);
    watcher.close();
  });

  it('the same request twice at once does the thing once', async () => {
    const body = newBay();
    const headers = { 'idempotency-key': '"pressed-twice"' };
    const answers = await Promise.all([1, 2, 3, 4].map(() => shop.manager.post('/bays', body, headers)));
    const statuses = answers.map(({ status }) => status);
    expect(statuses.filter((status) => status !== 201 && status !== 409)).toEqual([]);
    const made = answers.filter(({ status }) => status === 201);
    expect(new Set(made.map((a) => a.body.id as string)).size).toBe(1);
    for (const { body: refused } of answers.filter(({ status }) => status === 409))
      expect(refused.code).toBe('request-in-progress');
    const again = await shop.manager.post('/bays', body, headers).expect(201);
    expect(again.headers['idempotent-replayed']).toBe('true');
    expect(again.body).toEqual(made[0]?.body);
    expect(await shop.sql('select 1 from bays where number = $1', [body.number])).toHaveLength(1);
  });

  it('a use case that is in the way of another is tried again from the start, and announces once', async () => {
    const uow = shop.server.app.get(UnitOfWork);
    let attempts = 0;
    const watcher = await LiveReader.open(shop.url, shop.manager);
    await uow.run(systemContext(shop.shopId, 'test'), async (tx) => {
      attempts += 1;
      tx.announce('bay', { attempt: String(attempts) });
      if (attempts < 3)
        await tx.rows(`do $$ begin raise exception 'deadlock' using errcode = '40P01'; end $$`);
      return ok(undefined);
    });
    await watcher.until((events) => events.some(({ type }) => type === 'change'));
    expect(watcher.changes.map(({ data }) => data.subjects)).toEqual([{ attempt: '3' }]);
    watcher.close();
    const never = uow.run(systemContext(shop.shopId, 'test'), (tx) =>
      tx.rows(`do $$ begin raise exception 'deadlock' using errcode = '40P01'; end $$`).then(ok),
    );
    await expect(never).rejects.toMatchObject({ fault: { code: 'database-unavailable' } });
  });

  it('no statement, lock or pause lasts for ever, and the limits end with the transaction', async () => {
    const uow = shop.server.app.get(UnitOfWork);
    const limits = await uow.read(systemContext(shop.shopId, 'test'), async (tx) =>
      ok(
        await tx.one(
          `select current_setting('statement_timeout') as statement, current_setting('lock_timeout') as lock,
                  current_setting('idle_in_transaction_session_timeout') as pause`,
        ),
      ),
    );
    expect(limits).toEqual({ statement: '30s', lock: '10s', pause: '1min' });
    const impatient = uow.run(systemContext(shop.shopId, 'test'), async (tx) => {
      await tx.rows(`select set_config('statement_timeout', '50ms', true)`);
      return ok(await tx.rows('select pg_sleep(5)'));
    });
    await expect(impatient).rejects.toMatchObject({ fault: { code: 'database-unavailable' } });
  });

  it('answers that nobody asks for again go after some days, a few with each new one', async () => {
    await shop.sql(
      `insert into idempotency_keys (shop_id, actor_id, key, fingerprint, status, body, created_at)
       select $1, $2, 'old-' || n, 'x', 200, 'null', now() - interval '4 days' from generate_series(1, 7) n`,
      [shop.shopId, shop.manager.staffId],
    );
    const old = async (): Promise<number> =>
      (await shop.sql(`select 1 from idempotency_keys where key like 'old-%'`)).length;
    await shop.manager.post('/bays', newBay()).expect(201);
    expect(await old()).toBe(2);
    await shop.manager.post('/bays', newBay()).expect(201);
    expect(await old()).toBe(0);
  });

  it('events go after two days; whoever was away longer is told to read everything again', async () => {
    await shop.manager.post('/bays', newBay()).expect(201);
    const before = (await LiveReader.open(shop.url, shop.manager)).events[0]?.id ?? '';
    const still = await LiveReader.open(shop.url, shop.manager, before);
    expect(still.events[0]).toMatchObject({ type: 'ready', id: before });
    shop.clock.set(new Date(shop.clock.now().getTime() + 3 * DAY));
    for (let i = 0; i < 6; i += 1) await shop.manager.post('/bays', newBay()).expect(201);
    await still.until(() => still.changes.length === 6);
    const [kept] = await shop.sql<{ n: number }>('select count(*)::int as n from live_events');
    expect(kept?.n).toBe(6);
    const late = await LiveReader.open(shop.url, shop.manager, before);
    expect(late.events[0]?.type).toBe('reset');
    const future = await LiveReader.open(shop.url, shop.manager, '99999999');
    expect(future.events[0]?.type).toBe('reset');
    for (const reader of [still, late, future]) reader.close();
  });

  it('a stream ends with the access token that opened it', async () => {
    const { jwtSecret } = shop.server.app.get<Config>(CONFIG);
    const claims = jwt.decode(shop.manager.token) as jwt.JwtPayload;
    const soon = Math.floor(Date.now() / 1000) + 2;
    const token = jwt.sign({ ...claims, exp: soon }, jwtSecret);
    const answer = await fetch(`${shop.url}/api/v1/live`, { headers: { authorization: `Bearer ${token}` } });
    expect(await answer.text()).toContain('event: ready');
    expect(Date.now()).toBeGreaterThanOrEqual(soon * 1000 - 5);
    await personWith(shop.url, shop.manager.staffId, token).get('/bays').expect(401);
  });

  it('a server that stops ends its streams, answers what is under way, and is gone', async () => {
    const other = await shopUnderTest();
    const stream = await fetch(`${other.url}/api/v1/live`, {
      headers: { authorization: `Bearer ${other.manager.token}` },
    });
    const holder = new pg.Client({
      ...testServer(),
      database: (await other.sql<{ d: string }>('select current_database() as d'))[0]?.d,
    });
    await holder.connect();
    await holder.query('begin');
    await holder.query('lock table bays in exclusive mode');
    const underWay = other.manager.post('/bays', newBay()).then((answer) => answer.status);
    await new Promise((resolve) => setTimeout(resolve, 300));
    const stopped = other.stop();
    expect(await stream.text()).toContain('event: ready');
    await holder.query('commit');
    await holder.end();
    expect(await underWay).toBe(201);
    await stopped;
    await expect(fetch(`${other.url}/api/v1/health`)).rejects.toThrow();
  });
});
