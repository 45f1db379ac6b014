import pg from 'pg';
import type { DataSourceOptions, MigrationInterface, QueryRunner } from 'typeorm';
import { migrate } from '#server/platform/database/migrate';
import { emptyDatabase, type TestDatabase } from '../support/database.js';

class MakeDoors1700000000001 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query('create table doors (n int not null)');
    await runner.query('select pg_sleep(0.2)'); // long enough for the others to come by
  }
  down(): Promise<void> {
    throw new Error('forward only');
  }
}

class PaintDoors1700000000002 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query('insert into doors (n) values (1)');
  }
  down(): Promise<void> {
    throw new Error('forward only');
  }
}

class Break1700000000003 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.query('insert into doors (n) values (2)');
    await runner.query('insert into windows (n) values (1)');
  }
  down(): Promise<void> {
    throw new Error('forward only');
  }
}

const NAMES = ['MakeDoors1700000000001', 'PaintDoors1700000000002'];
const BOTH = [MakeDoors1700000000001, PaintDoors1700000000002];

let database: TestDatabase;

beforeEach(async () => {
  database = await emptyDatabase();
});

afterEach(() => database.drop());

function options(migrations: NonNullable<DataSourceOptions['migrations']>): DataSourceOptions {
  const { user: username, ...rest } = database.conn;
  return { type: 'postgres', ...rest, username, installExtensions: false, migrations };
}

async function doors(): Promise<number[]> {
  const client = new pg.Client(database.conn);
  await client.connect();
  try {
    const found = await client.query<{ n: number }>('select n from doors order by n');
    return found.rows.map((row) => row.n);
  } finally {
    await client.end();
  }
}

describe('bringing the database up to date', () => {
  it('runs each migration once when four processes start at once, and none of them fails', async () => {
    const ran = await Promise.all([1, 2, 3, 4].map(() => migrate(options(BOTH), database.conn)));
    expect(ran.filter((names) => names.length > 0)).toEqual([NAMES]);
    expect(await doors()).toEqual([1]);
  });

  it('does nothing the second time, and only what is new after that', async () => {
    expect(await migrate(options([MakeDoors1700000000001]), database.conn)).toEqual([
      'MakeDoors1700000000001',
    ]);
    expect(await migrate(options([MakeDoors1700000000001]), database.conn)).toEqual([]);
    expect(await migrate(options(BOTH), database.conn)).toEqual(['PaintDoors1700000000002']);
  });

  it('undoes a migration that fails, keeps the ones before it and lets the next process try', async () => {
    const broken = options([...BOTH, Break1700000000003]);
    await expect(migrate(broken, database.conn)).rejects.toThrow(/windows/);
    expect(await doors()).toEqual([1]);
    expect(await migrate(options(BOTH), database.conn)).toEqual([]);
  });

  it('waits for a process that holds the lock', async () => {
    const holder = new pg.Client(database.conn);
    await holder.connect();
    await holder.query('select pg_advisory_lock(77)');
    let done = false;
    const waiting = migrate(options(BOTH), database.conn, { lockKey: 77 }).finally(() => (done = true));
    await new Promise((resolve) => setTimeout(resolve, 300));
    expect(done).toBe(false);
    await holder.end();
    expect(await waiting).toEqual(NAMES);
  });
});
