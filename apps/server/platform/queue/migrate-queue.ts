import { Logger, runMigrations } from 'graphile-worker';
import type pg from 'pg';
import { queuePool, QUEUE_SCHEMA } from './queue-connection.js';

/**
 * Brings the queue's own tables up to date. The caller holds the lock of the migrations and connects as the owner.
 *
 * These tables are the library's: they carry no shop and stand outside tenancy, which is why a job has ids only and
 * the role of the transactions has no right on them (see the migration that makes `enqueue_jobs`).
 */
export async function migrateQueue(conn: pg.ClientConfig): Promise<void> {
  const pool = queuePool(conn, 1);
  try {
    await runMigrations({ pgPool: pool, schema: QUEUE_SCHEMA, logger: new Logger(() => () => undefined) });
  } finally {
    await pool.end();
  }
}
