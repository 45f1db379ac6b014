import pg from 'pg';

/** Where the library keeps its tables; the migration that grants rights on them names it too. */
export const QUEUE_SCHEMA = 'graphile_worker';
const CONNECT_LIMIT_MS = 5_000;

/** What runs jobs does so as a role that may touch nothing but the queue. */
export function asQueueRole(conn: pg.ClientConfig): pg.ClientConfig {
  return {
    ...conn,
    options: '-c role=bayledger_queue',
    application_name: 'bayledger-jobs',
    connectionTimeoutMillis: CONNECT_LIMIT_MS,
    keepAlive: true,
  };
}

/** A pool for the library. A connection that breaks shows in the query that needed it; unheard it would end the process. */
export function queuePool(conn: pg.ClientConfig, max: number): pg.Pool {
  const pool = new pg.Pool({ ...conn, max });
  pool.on('error', () => undefined);
  pool.on('connect', (client) => client.on('error', () => undefined));
  return pool;
}
