import pg from 'pg';
import type { Logger } from 'pino';
import type { DataSourceOptions } from 'typeorm';
import { migrations } from '#migrations';
import type { Config } from '../config.js';
import { startEmbeddedPostgres } from './embedded/index.js';
import { migrate } from './migrate.js';

export type PostgresOptions = Extract<DataSourceOptions, { type: 'postgres' }>;

export interface OpenDatabase {
  readonly options: PostgresOptions;
  /** For LISTEN and for running jobs: straight to the server, past a proxy that pools transactions and would drop it. */
  readonly straight: pg.ClientConfig;
  readonly migrated: readonly string[];
  /** No shop has been made yet. */
  readonly isEmpty: boolean;
  stop(): Promise<void>;
}

/** Also how long a request waits for a free connection of the pool; then it is told to come again. */
const CONNECT_LIMIT_MS = 10_000;

/** The login of the server's own database: may do nothing but take the roles of requests and of jobs. */
const SERVER_LOGIN = 'bayledger_server';

/**
 * Opens the database that the configuration names, brings it up to date, and makes sure that the role under which
 * every transaction runs cannot pass by row-level security.
 */
export async function openDatabase(
  config: Config,
  log: Logger,
  entities: PostgresOptions['entities'],
): Promise<OpenDatabase> {
  const own =
    config.databaseUrl === null
      ? await startEmbeddedPostgres({
          dataDir: `${config.dataDir}/postgres`,
          onEvent: (event) => log.warn(event, 'the database server'),
        })
      : undefined;
  try {
    const admin: pg.ClientConfig = own ? own.conn : { connectionString: config.databaseAdminUrl ?? '' };
    const migrated = await migrate({ ...typeormOptions(admin), migrations }, admin);
    if (own) await assureServerLogin(admin);
    const connection: pg.ClientConfig = own
      ? { ...own.conn, user: SERVER_LOGIN }
      : { connectionString: config.databaseUrl ?? '' };
    await refuseRoleThatBypasses(admin);
    const isEmpty = await hasNoShop(admin);
    return {
      options: { ...typeormOptions(connection), entities, poolSize: config.poolSize },
      straight: own ? connection : admin,
      migrated,
      isEmpty,
      stop: async () => own?.stop(),
    };
  } catch (error) {
    await own?.stop();
    throw error;
  }
}

export function typeormOptions(conn: pg.ClientConfig): PostgresOptions {
  const where = conn.connectionString
    ? { url: conn.connectionString }
    : { host: conn.host, port: conn.port, username: conn.user, database: conn.database };
  return {
    type: 'postgres',
    ...where,
    synchronize: false,
    installExtensions: false,
    applicationName: 'bayledger',
    connectTimeoutMS: CONNECT_LIMIT_MS,
  };
}

async function withClient<T>(conn: pg.ClientConfig, work: (client: pg.Client) => Promise<T>): Promise<T> {
  const client = new pg.Client(conn);
  client.on('error', () => undefined);
  await client.connect();
  try {
    return await work(client);
  } finally {
    await client.end();
  }
}

async function assureServerLogin(admin: pg.ClientConfig): Promise<void> {
  await withClient(admin, async (client) => {
    await client.query(`do $$ begin
      create role ${SERVER_LOGIN} login nosuperuser nobypassrls noinherit in role bayledger_app;
    exception when duplicate_object or unique_violation then null; end $$`);
    await client.query(`grant bayledger_queue to ${SERVER_LOGIN}`);
  });
}

async function refuseRoleThatBypasses(admin: pg.ClientConfig): Promise<void> {
  await withClient(admin, async (client) => {
    const { rows } = await client.query<{ unsafe: boolean }>(
      `select rolsuper or rolbypassrls as unsafe from pg_roles where rolname = 'bayledger_app'`,
    );
    if (rows[0]?.unsafe !== false)
      throw new Error(
        'the role bayledger_app may bypass row-level security: alter role bayledger_app nosuperuser nobypassrls',
      );
  });
}

/** Asked as the owner of the tables: the server's own role sees no shop before one is named. */
async function hasNoShop(admin: pg.ClientConfig): Promise<boolean> {
  return withClient(admin, async (client) => {
    const { rows } = await client.query<{ none: boolean }>('select not exists (select 1 from shops) as none');
    return rows[0]?.none === true;
  });
}
