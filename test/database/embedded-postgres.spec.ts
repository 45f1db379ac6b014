import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import * as path from 'node:path';
import pg from 'pg';
import { startChild, type Child, type Line } from '../support/child.js';
import { testServer } from '../support/database.js';
import { isAlive, until } from '../support/until.js';

const SCRIPT = path.resolve('test/support/embedded-app.mjs');
/** A PATH without setpriv and flock, as on a system that does not have them. */
const BARE = { PATH: '/nonexistent' };

let root: string;
let folder: string;
let children: Child[];
let made = 0;

/** Making a cluster takes most of a start, so it is made once and copied with its owners. */
beforeAll(async () => {
  root = path.join(testServer().scratch, 'embedded');
  mkdirSync(root, { mode: 0o755 });
  folder = path.join(root, 'seed');
  children = [];
  const child = await ready();
  child.kill('SIGTERM');
  await child.ended;
});

afterAll(() => {
  rmSync(root, { recursive: true, force: true });
});

beforeEach(() => {
  children = [];
  folder = path.join(root, `case-${(made += 1)}`);
  execFileSync('cp', ['-a', path.join(root, 'seed'), folder]);
});

afterEach(async () => {
  await Promise.all(children.map((child) => child.end()));
  if (existsSync(pidFile()) && isAlive(postmaster())) process.kill(postmaster(), 'SIGQUIT');
  await until(() => !existsSync(pidFile()) || !isAlive(postmaster()));
  rmSync(folder, { recursive: true, force: true });
});

const pidFile = () => path.join(folder, 'cluster', 'postmaster.pid');
const postmaster = () => Number(readFileSync(pidFile(), 'utf8').split('\n', 1)[0]);

function launch(mode = '', env: NodeJS.ProcessEnv = {}): Child {
  const child = startChild(SCRIPT, [folder, mode], env);
  children.push(child);
  return child;
}

const isReady = (line: Line) => line['ready'] === true;

async function ready(mode = '', env: NodeJS.ProcessEnv = {}): Promise<Child> {
  const child = launch(mode, env);
  await child.line(isReady);
  return child;
}

async function connOf(child: Child): Promise<pg.ClientConfig> {
  const { conn } = await child.line(isReady);
  return conn as pg.ClientConfig;
}

async function rows(child: Child): Promise<number[]> {
  const client = new pg.Client(await connOf(child));
  await client.connect();
  try {
    const result = await client.query<{ n: number }>('select n from acknowledged');
    return result.rows.map((row) => row.n);
  } finally {
    await client.end();
  }
}

const acknowledged = (child: Child) =>
  child.lines.flatMap((line) => (typeof line['acknowledged'] === 'number' ? [line['acknowledged']] : []));

const wrote = (child: Child, n: number) => child.line((line) => Number(line['acknowledged']) >= n);

describe('the built-in database', () => {
  it('keeps what was written when the program is stopped and started again', async () => {
    const first = await ready('write');
    await wrote(first, 20);
    first.kill('SIGTERM');
    expect(await first.ended).toEqual({ code: 0, signal: null });
    const second = await ready();
    expect(await rows(second)).toEqual(expect.arrayContaining(acknowledged(first)));
    const { timings } = await second.line(isReady);
    expect(timings).not.toHaveProperty('initdb');
  });

  it('stops with the program and leaves no pid file and no holder behind', async () => {
    const child = await ready();
    const pid = postmaster();
    child.kill('SIGTERM');
    expect(await child.ended).toEqual({ code: 0, signal: null });
    expect(isAlive(pid)).toBe(false);
    expect(existsSync(pidFile())).toBe(false);
    expect(existsSync(path.join(folder, 'holder.json'))).toBe(false);
  });

  it('loses nothing acknowledged when the program is killed while it writes', async () => {
    const first = await ready('write');
    await wrote(first, 100);
    first.kill('SIGKILL');
    await first.ended;
    const second = await ready(); // at once, while the old server may still be closing
    const kept = await rows(second);
    expect(acknowledged(first).length).toBeGreaterThanOrEqual(100);
    expect(kept).toEqual(expect.arrayContaining(acknowledged(first)));
  });

  it('takes over the server of a killed program where nothing could tie the two together', async () => {
    const first = await ready('write', BARE);
    await wrote(first, 20);
    const orphan = postmaster();
    first.kill('SIGKILL');
    await first.ended;
    expect(isAlive(orphan)).toBe(true);
    const second = await ready('', BARE);
    expect(await second.line(isReady)).toMatchObject({ adopted: true });
    expect(isAlive(orphan)).toBe(false);
    expect(await rows(second)).toEqual(expect.arrayContaining(acknowledged(first)));
  });

  it('starts again by itself when the server is killed, and loses nothing acknowledged', async () => {
    const child = await ready('write');
    await wrote(child, 100);
    const killed = postmaster();
    process.kill(killed, 'SIGKILL');
    const restarted = await child.line(
      (line) => (line['event'] as Line | undefined)?.['kind'] === 'server-restarted',
    );
    expect(restarted['event']).toMatchObject({ tookMs: expect.any(Number) as number });
    const before = acknowledged(child).length;
    await until(() => acknowledged(child).length > before + 50); // the same pool goes on
    expect(postmaster()).not.toBe(killed);
    const kept = await rows(child);
    expect(kept).toEqual(expect.arrayContaining(acknowledged(child).slice(0, before + 50)));
  });

  it('starts again after each of several kills in a row', async () => {
    const child = await ready('write');
    for (let kill = 1; kill <= 3; kill += 1) {
      process.kill(postmaster(), 'SIGKILL');
      const times = () =>
        child.lines.filter((line) => (line['event'] as Line | undefined)?.['kind'] === 'server-restarted');
      await until(() => times().length === kill);
    }
    child.kill('SIGTERM');
    expect(await child.ended).toEqual({ code: 0, signal: null });
    expect(existsSync(pidFile())).toBe(false);
  });

  it('is not misled by a pid file that names a stranger', async () => {
    const first = await ready('write');
    await wrote(first, 10);
    const dead = readFileSync(pidFile(), 'utf8');
    first.kill('SIGKILL');
    await first.ended;
    await until(() => !existsSync(pidFile()) || !isAlive(postmaster()));
    writeFileSync(pidFile(), dead.replace(/^\d+/, String(process.pid)));
    const second = await ready();
    expect(await rows(second)).toEqual(expect.arrayContaining(acknowledged(first)));
    expect(isAlive(process.pid)).toBe(true);
  });

  it.each([
    ['with flock', {}],
    ['without flock', BARE],
  ])('refuses a second program on the same folder and says who has it, %s', async (_how, env) => {
    const first = await ready('write', env);
    const pid = postmaster();
    const second = launch('', env);
    const refusal = await second.line((line) => 'failed' in line);
    expect(refusal).toMatchObject({ failed: 'data-folder-held', holder: { pid: first.pid } });
    expect(refusal['message']).toContain(`process ${first.pid}`);
    expect(refusal['message']).toContain('DATABASE_URL');
    expect(await second.ended).toMatchObject({ code: 3 });
    const before = acknowledged(first).length;
    await until(() => acknowledged(first).length > before + 20); // the holder is not disturbed
    expect(postmaster()).toBe(pid);
  });

  it('locks the folder in the kernel, so that the lock dies with the program and not later', async () => {
    // flock(1) of util-linux, with a status of 1 when somebody else has the lock
    const tryIt = () => spawnSync('flock', ['-n', path.join(folder, 'lock'), 'true']).status;
    const child = await ready();
    expect(tryIt()).toBe(1);
    child.kill('SIGKILL');
    await child.ended;
    expect(tryIt()).toBe(0);
  });

  it('lets exactly one of four programs have a folder that all want at once', async () => {
    const four = [launch(), launch(), launch(), launch()];
    const outcomes = await Promise.all(
      four.map((child) => child.line((line) => isReady(line) || 'failed' in line)),
    );
    expect(outcomes.filter(isReady)).toHaveLength(1);
    const winner = four[outcomes.findIndex(isReady)];
    for (const lost of outcomes.filter((line) => !isReady(line))) {
      expect(lost).toMatchObject({ failed: 'data-folder-held', holder: { pid: winner?.pid } });
    }
  });

  it('begins anew when it was killed while the cluster was being made', async () => {
    rmSync(path.join(folder, 'cluster'), { recursive: true });
    const first = launch();
    await until(() => readdirSync(folder).some((name) => existsSync(path.join(folder, name, 'PG_VERSION'))));
    first.kill('SIGKILL');
    await first.ended;
    const second = await ready();
    expect(await rows(second)).toEqual([]);
  });

  it('finds a shorter place for its socket when the path of the folder is long', async () => {
    const seeded = folder;
    folder = path.join(root, 'x'.repeat(60), 'y'.repeat(60));
    mkdirSync(path.dirname(folder), { recursive: true });
    renameSync(seeded, folder);
    const child = await ready();
    const { host } = await connOf(child);
    expect(host).not.toContain(folder);
    expect(await rows(child)).toEqual([]);
    child.kill('SIGTERM');
    await child.ended;
    expect(existsSync(host ?? '')).toBe(false);
  });

  it('says so when the data folder is a file, or was written by another version', async () => {
    writeFileSync(path.join(folder, 'cluster', 'PG_VERSION'), '9\n');
    const other = await launch().line((line) => 'failed' in line);
    expect(other).toMatchObject({ failed: 'data-folder-unusable' });
    expect(other['message']).toMatch(/written by Postgres 9.*DATABASE_URL/);
    rmSync(folder, { recursive: true });
    writeFileSync(folder, 'not a folder');
    expect(await launch().line((line) => 'failed' in line)).toMatchObject({ failed: 'data-folder-unusable' });
  });
});
