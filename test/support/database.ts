import pg from 'pg';

export interface TestConnection {
  readonly host: string;
  readonly port: number;
  readonly user: string;
  readonly database: string;
}

/** A database of one spec file. The role of `conn` and `url` owns it and passes by row-level security. */
export interface TestDatabase {
  readonly url: string;
  readonly conn: TestConnection;
  /** Ends whatever is still connected and removes it. */
  drop(): Promise<void>;
}

let made = 0;

/** A copy of the migrated template: about 0.1 s, so take one for each spec file, not for each test. */
export async function freshDatabase(): Promise<TestDatabase> {
  const { template } = testServer();
  if (template === undefined) throw new Error('There are no built migrations; run: npm run build:server');
  return create(`template ${template}`);
}

/** A database without any table of ours, for tests of the migrations themselves. */
export async function emptyDatabase(): Promise<TestDatabase> {
  return create('template template0');
}

export interface TestServer extends TestConnection {
  readonly template?: string;
  /** A folder that goes when the run is over, or before the next one if it was killed. */
  readonly scratch: string;
}

/** How to reach the server of this run; its maintenance database is `postgres`. */
export function testServer(): TestServer {
  const given = process.env.TEST_PG;
  if (given === undefined) {
    throw new Error(
      'This run has no database server: run npm run build:server first, and name more than libs/',
    );
  }
  return JSON.parse(given) as TestServer;
}

async function create(from: string): Promise<TestDatabase> {
  const { host, port, user } = testServer();
  const worker = process.env.JEST_WORKER_ID ?? '0';
  made += 1;
  const database = `test_w${worker}_p${process.pid}_${made}_${Date.now().toString(36)}`;
  await retried(`create database ${database} ${from}`);
  const conn = { host, port, user, database };
  const url = `postgres://${user}@/${database}?host=${encodeURIComponent(host)}&port=${port}`;
  return { url, conn, drop: () => retried(`drop database if exists ${database} with (force)`) };
}

/** Two workers that copy one template at once can get in each other's way (55006, object in use). */
async function retried(sql: string): Promise<void> {
  for (let left = 20; ; left -= 1) {
    try {
      await onMaintenanceDatabase(sql);
      return;
    } catch (error) {
      if (left === 0 || (error as { code?: string }).code !== '55006') throw error;
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
  }
}

async function onMaintenanceDatabase(sql: string): Promise<void> {
  const { host, port, user } = testServer();
  const client = new pg.Client({ host, port, user, database: 'postgres' });
  await client.connect();
  try {
    await client.query(sql);
  } finally {
    await client.end();
  }
}
