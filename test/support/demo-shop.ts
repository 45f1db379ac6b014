import { randomUUID } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pino } from 'pino';
import request from 'supertest';
import { StillClock } from '#server/platform/clock';
import { readConfig } from '#server/platform/config';
import { startServer } from '#server/start-server';
import { freshDatabase } from './database.js';
import { personWith, type Person } from './shop-under-test.js';

/** The demonstration shop as it is made on first start, on a clock that stands still. */
export interface DemoShop {
  readonly url: string;
  readonly clock: StillClock;
  signIn(email: string, password: string): Promise<Person>;
  stop(): Promise<void>;
}

export async function demoShop(now: string): Promise<DemoShop> {
  const database = await freshDatabase();
  const dataDir = mkdtempSync(join(tmpdir(), 'bayledger-demo-'));
  const clock = new StillClock(new Date(now));
  const config = readConfig({
    DATABASE_URL: database.url,
    PORT: '0',
    DATA_DIR: dataDir,
    JWT_SECRET: 'a-secret-only-for-tests-0123456789abcdef',
    DEMO_SHOP: 'yes',
    BACKGROUND_WORK: 'off',
  });
  const server = await startServer(config, { clock, log: pino({ level: 'silent' }) });
  return {
    url: server.url,
    clock,
    signIn: async (email, password) => {
      const { body } = await request(`${server.url}/api/v1`)
        .post('/sessions')
        .set('idempotency-key', `"${randomUUID()}"`)
        .send({ email, password, delivery: 'body' })
        .expect(201);
      const { accessToken, staff } = body as { accessToken: string; staff: { id: string } };
      return personWith(server.url, staff.id, accessToken);
    },
    stop: async () => {
      await server.stop();
      await database.drop();
      rmSync(dataDir, { recursive: true, force: true });
    },
  };
}
