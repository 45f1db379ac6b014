import { existsSync, mkdirSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { summaryLine } from './summary-reporter.mjs';

const DATABASE = 'dist/apps/server/platform/database';
const PREFIX = 'bayledger-test-';
const TEMPLATE = 'bayledger_template';
/** What a crash would lose does not matter here; what the tests themselves take does. */
const FAST = [
  'fsync=off',
  'synchronous_commit=off',
  'full_page_writes=off',
  'max_connections=250',
  'autovacuum=off',
];

/**
 * One Postgres server for the whole run, with a migrated template database in it. Specs find it through
 * `test/support/database.ts`; how to reach it travels in TEST_PG. There is none without a build, nor when only specs of
 * libs/ were asked for: pure code runs without it, and a spec that needs it says what to do.
 */
export default async function globalSetup({ testPathPatterns }) {
  const began = performance.now();
  delete process.env.TEST_PG;
  if (!existsSync(`${DATABASE}/embedded/index.js`) || onlyLibs(testPathPatterns.patterns)) return;
  try {
    sweepLeftovers();
    const [server, modules] = await Promise.all([startServer(), loadMigrations()]);
    const template = await makeTemplate(server.conn, modules);
    process.env.TEST_PG = JSON.stringify({ ...server.conn, template, scratch: server.scratch });
    console.log(`\ndatabase for this run: ready in ${Math.round(performance.now() - began)} ms`);
  } catch (error) {
    await globalThis.testServer?.close();
    process.once('exit', () => process.stdout.write(`${summaryLine(0, 1, 0)}\n`));
    throw error;
  }
}

/** `npm run jest -- libs/money` needs no server, and a second saved each time is what makes people run it often. */
function onlyLibs(patterns) {
  const libs = `${path.resolve('libs')}${path.sep}`;
  return patterns.length > 0 && patterns.every((pattern) => path.resolve(pattern).startsWith(libs));
}

async function startServer() {
  const { startEmbeddedPostgres } = await load(`${DATABASE}/embedded/index.js`);
  const wanted = path.join(tmpdir(), `${PREFIX}${process.pid}-${Date.now().toString(36)}`);
  // Not mkdtemp: its 0700 would lock out the user that the server runs as when the tests run as root.
  mkdirSync(wanted, { mode: 0o755 });
  const server = await startEmbeddedPostgres({
    dataDir: wanted,
    flags: FAST.flatMap((flag) => ['-c', flag]),
  });
  const remove = () => {
    for (const folder of [wanted, server.dataDir]) rmSync(folder, { recursive: true, force: true });
  };
  const onSignal = (signal) => {
    void server.stop().finally(() => {
      remove();
      process.exit(signal === 'SIGINT' ? 130 : 143);
    });
  };
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.once(signal, onSignal);
  process.once('exit', remove);
  const close = async () => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.off(signal, onSignal);
    await server.stop();
    remove();
  };
  globalThis.testServer = { close };
  const scratch = path.join(wanted, 'scratch');
  mkdirSync(scratch, { mode: 0o755 });
  return { conn: server.conn, scratch };
}

/** The modules of the migrations take as long to load as the server takes to start, so both go on at once. */
function loadMigrations() {
  if (!existsSync('dist/migrations/index.js')) return Promise.resolve(undefined);
  return Promise.all([load('dist/migrations/index.js'), load(`${DATABASE}/migrate.js`)]);
}

async function makeTemplate(conn, modules) {
  if (modules === undefined) return undefined;
  const [{ migrations }, { migrate }] = modules;
  await run(conn, `create database ${TEMPLATE}`);
  const { host, port, user: username } = conn;
  const options = {
    type: 'postgres',
    host,
    port,
    username,
    database: TEMPLATE,
    installExtensions: false,
    migrations,
  };
  await migrate(options, { ...conn, database: TEMPLATE });
  // A template that nobody can connect to is one that nobody can keep from being copied.
  await run(conn, `alter database ${TEMPLATE} with is_template true allow_connections false`);
  return TEMPLATE;
}

async function run(conn, sql) {
  const { default: pg } = await import('pg');
  const client = new pg.Client({ ...conn, database: 'postgres' });
  await client.connect();
  try {
    await client.query(sql);
  } finally {
    await client.end();
  }
}

function load(file) {
  return import(pathToFileURL(path.resolve(file)).href);
}

/** A run that was killed outright could not clean up: its server is gone, its folder is removed here. */
function sweepLeftovers() {
  for (const name of readdirSync(tmpdir())) {
    const pid = Number(name.startsWith(PREFIX) ? name.slice(PREFIX.length).split('-', 1)[0] : Number.NaN);
    if (!Number.isInteger(pid) || pid <= 0 || isAlive(pid)) continue;
    try {
      rmSync(path.join(tmpdir(), name), { recursive: true, force: true });
    } catch {
      // its server is still closing, or another run sweeps too: the next run sees to it
    }
  }
}

function isAlive(pid) {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error.code === 'EPERM';
  }
}
