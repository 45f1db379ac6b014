import { once } from 'node:events';
import { createServer, connect, type Server, type Socket } from 'node:net';
import type { AddressInfo } from 'node:net';
import pg from 'pg';
import { PgListener } from '#server/platform/database/pg-listener';
import { emptyDatabase, type TestDatabase } from '../support/database.js';

let database: TestDatabase;
let sender: pg.Client;
let listener: PgListener;

beforeAll(async () => {
  database = await emptyDatabase();
  sender = new pg.Client(database.conn);
  await sender.connect();
});

afterAll(async () => {
  await sender.end();
  await database.drop();
});

beforeEach(() => {
  listener = new PgListener({ ...database.conn, application_name: 'listener' });
});

afterEach(() => listener.close());

const notify = (channel: string, payload: string) =>
  sender.query('select pg_notify($1, $2)', [channel, payload]);

async function heard(from: PgListener, channel: string, payload: string): Promise<unknown[]> {
  const message = once(from, 'message');
  await notify(channel, payload);
  return (await message) as unknown[];
}

describe('listening for news', () => {
  it('hears each channel that was named before or after it connected, and no other', async () => {
    await listener.listen('board');
    await listener.connect();
    await listener.listen('Clock Entries'); // a name that needs quoting
    const all: unknown[] = [];
    listener.on('message', (...message) => all.push(message));
    await notify('elsewhere', 'no');
    expect(await heard(listener, 'board', 'one')).toEqual(['board', 'one']);
    expect(await heard(listener, 'Clock Entries', '')).toEqual(['Clock Entries', '']);
    expect(all).toHaveLength(2);
  });

  it('comes back by itself when its connection is ended, and says so', async () => {
    await listener.listen('board');
    await listener.connect();
    const lost = once(listener, 'lost');
    const reconnected = once(listener, 'reconnected');
    await sender.query(`select pg_terminate_backend(pid) from pg_stat_activity
      where application_name = 'listener' and datname = current_database()`);
    expect(((await lost) as [string])[0]).toMatch(/terminating connection|closed/);
    await reconnected;
    expect(await heard(listener, 'board', 'again')).toEqual(['board', 'again']);
  });

  it('notices a connection that has gone silent', async () => {
    const relay = await startRelay();
    const { database: name, user } = database.conn;
    const far = new PgListener(
      { host: '127.0.0.1', port: relay.port, user, database: name },
      { heartbeatMs: 100 },
    );
    try {
      await far.listen('board');
      await far.connect();
      expect(await heard(far, 'board', 'one')).toEqual(['board', 'one']);
      const lost = once(far, 'lost');
      const reconnected = once(far, 'reconnected');
      relay.fallSilent();
      expect(await lost).toEqual(['no sign of life']);
      await reconnected;
      expect(await heard(far, 'board', 'two')).toEqual(['board', 'two']);
    } finally {
      await far.close();
      await relay.close();
    }
  });

  it('fails at once when the first connection cannot be made', async () => {
    const nowhere = new PgListener({ ...database.conn, database: 'no_such_database' });
    await expect(nowhere.connect()).rejects.toThrow(/no_such_database/);
    await nowhere.close();
  });

  it('stays closed once it is closed', async () => {
    await listener.connect();
    const words: string[] = [];
    listener.on('lost', () => words.push('lost')).on('reconnected', () => words.push('reconnected'));
    await listener.close();
    await new Promise((resolve) => setTimeout(resolve, 300));
    expect(words).toEqual([]);
    const left = await sender.query(`select from pg_stat_activity
      where application_name = 'listener' and datname = current_database()`);
    expect(left.rowCount).toBe(0);
  });
});

/** A TCP door to the server's socket that can stop passing anything on without closing, as a dead host does. */
async function startRelay(): Promise<{ port: number; fallSilent(): void; close(): Promise<void> }> {
  const { host, port } = database.conn;
  const pairs: [Socket, Socket][] = [];
  const server: Server = createServer((near) => {
    const far = connect(`${host}/.s.PGSQL.${port}`);
    pairs.push([near, far]);
    for (const socket of [near, far]) socket.on('error', () => undefined);
    near.pipe(far).pipe(near);
  });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  return {
    port: (server.address() as AddressInfo).port,
    fallSilent: () => {
      for (const [near, far] of pairs) {
        near.unpipe(far).resume();
        far.unpipe(near).resume();
      }
    },
    close: async () => {
      for (const socket of pairs.flat()) socket.destroy();
      server.close();
      await once(server, 'close');
    },
  };
}
