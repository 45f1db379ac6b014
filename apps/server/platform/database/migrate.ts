import pg from 'pg';
import { DataSource, type DataSourceOptions } from 'typeorm';
import { migrateQueue } from '../queue/migrate-queue.js';

/** Any fixed number that no other advisory lock of this program uses; session locks and row locks have their own keys. */
const MIGRATION_LOCK_KEY = 5_214_700_118;
/** A migration of a large table takes minutes; a process that waits longer than this should fail and be looked at. */
const LOCK_WAIT = '30min';

/**
 * Runs the pending migrations, each in a transaction of its own, and returns the names of ours. The job queue's come
 * first, because ours grant rights on its tables.
 * Any number of processes may call this at once: one runs them while the others wait, and then find nothing to do.
 * Session locks need a connection of their own, so `conn` must not lead through a transaction-pooling proxy.
 */
export async function migrate(
  options: DataSourceOptions,
  conn: pg.ClientConfig,
  { lockKey = MIGRATION_LOCK_KEY }: { readonly lockKey?: number } = {},
): Promise<string[]> {
  const lock = new pg.Client({ ...conn, keepAlive: true });
  lock.on('error', () => undefined); // the migrations run on the same server and report its loss themselves
  await lock.connect();
  try {
    await lock.query(`set lock_timeout = '${LOCK_WAIT}'`);
    await lock.query('select pg_advisory_lock($1)', [lockKey]);
    await migrateQueue(conn);
    const source = new DataSource({ ...options, synchronize: false, migrationsRun: false });
    await source.initialize();
    try {
      const ran = await source.runMigrations({ transaction: 'each' });
      return ran.map((migration) => migration.name);
    } finally {
      await source.destroy();
    }
  } finally {
    await lock.end().catch(() => undefined);
  }
}
