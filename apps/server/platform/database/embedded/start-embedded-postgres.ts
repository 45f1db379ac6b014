import { rmSync } from 'node:fs';
import pg from 'pg';
import { usableBinaries } from './binaries.js';
import { ensureCluster, OWNER_ROLE } from './create-cluster.js';
import { openDataFolder, openSocketFolder, unusable, type DataFolder } from './data-folder.js';
import { lockFolder } from './folder-lock.js';
import { clearTheWay } from './server-processes.js';
import { superviseServer, type ServerEvent } from './supervisor.js';

export const DATABASE_NAME = 'bayledger';

export interface EmbeddedPostgresOptions {
  /** A folder of its own: the cluster, its socket and its lock are made inside. */
  readonly dataDir: string;
  /** More arguments for the server, such as `['-c', 'work_mem=16MB']`. */
  readonly flags?: readonly string[];
  /** Told when the server died and was started again. */
  readonly onEvent?: (event: ServerEvent) => void;
}

/** How to reach the server: `host` is the folder of its socket, which only its owner can enter, so no password. */
export interface EmbeddedConnection {
  readonly host: string;
  readonly port: number;
  readonly user: string;
  readonly database: string;
}

export interface EmbeddedPostgres {
  readonly conn: EmbeddedConnection;
  /** Where the data really is: another folder than asked for when the server's user could not get there. */
  readonly dataDir: string;
  /** True when a server of a killed owner was still there and had to be taken over. */
  readonly adopted: boolean;
  /** Milliseconds by step. */
  readonly timings: Readonly<Record<string, number>>;
  /** Stops the server cleanly and gives the folder back. Close the pools first. May be called twice. */
  stop(): Promise<void>;
}

/**
 * Starts a real Postgres server on a folder, as root or as an ordinary user, and keeps it running. One process at a
 * time may do so per folder. If this process is killed, the kernel stops the server; what was acknowledged is kept.
 * @throws DataFolderHeldError when another process has the folder
 * @throws EmbeddedDatabaseError when the server cannot run here
 */
export async function startEmbeddedPostgres(options: EmbeddedPostgresOptions): Promise<EmbeddedPostgres> {
  const clock = stopwatch();
  const folder = openDataFolder(options.dataDir);
  try {
    const lock = await lockFolder(folder);
    clock.lap('lock');
    try {
      const started = await startHeld(folder, options, clock);
      let stopped: Promise<void> | undefined;
      const stop = () => (stopped ??= started.stop().finally(lock.release));
      return {
        conn: started.conn,
        adopted: started.adopted,
        dataDir: folder.home,
        timings: clock.laps,
        stop,
      };
    } catch (error) {
      await lock.release();
      throw error;
    }
  } catch (error) {
    throw unusable(folder.home, error);
  }
}

async function startHeld(folder: DataFolder, options: EmbeddedPostgresOptions, clock: Stopwatch) {
  const flags = options.flags ?? [];
  const binaries = usableBinaries(folder);
  clock.lap('binaries');
  const made = await ensureCluster(folder, binaries, !flags.includes('fsync=off'));
  if (made) clock.lap('initdb');
  const adopted = await clearTheWay(folder.cluster);
  if (adopted) clock.lap('takeOver');
  const socketDir = openSocketFolder(folder);
  const plan = { folder, binariesRoot: binaries.root, socketDir, flags };
  const supervisor = await superviseServer(plan, options.onEvent ?? (() => undefined));
  clock.lap('start');
  const stop = async () => {
    await supervisor.stop();
    rmSync(socketDir, { recursive: true, force: true });
  };
  const conn = { host: socketDir, port: 5432, user: OWNER_ROLE, database: DATABASE_NAME };
  try {
    await ensureDatabase(conn);
  } catch (error) {
    await stop();
    throw error;
  }
  clock.lap('database');
  return { stop, conn, adopted };
}

async function ensureDatabase(conn: EmbeddedConnection): Promise<void> {
  const client = new pg.Client({ ...conn, database: 'postgres' });
  client.on('error', () => undefined); // the query that failed says so too
  await client.connect();
  try {
    const found = await client.query('select from pg_database where datname = $1', [conn.database]);
    if (found.rowCount === 0) await client.query(`create database ${pg.escapeIdentifier(conn.database)}`);
  } finally {
    await client.end();
  }
}

interface Stopwatch {
  readonly laps: Record<string, number>;
  lap(step: string): void;
}

function stopwatch(): Stopwatch {
  const laps: Record<string, number> = {};
  let at = performance.now();
  return {
    laps,
    lap: (step) => {
      const now = performance.now();
      laps[step] = Math.round(now - at);
      at = now;
    },
  };
}
