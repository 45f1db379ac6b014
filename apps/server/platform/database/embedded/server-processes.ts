import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync, readlinkSync, realpathSync, rmSync } from 'node:fs';
import * as path from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { isCode } from './system-errors.js';

const FAST_MS = 30_000;
const IMMEDIATE_MS = 5_000;

/**
 * Makes the folder free of servers, so that a new one may start. The caller holds the folder's lock, so whatever
 * still runs there was left behind by an owner that was killed: a whole server, or backends whose postmaster was
 * killed and that must be gone before the next one replays the log.
 * @returns true when something was left behind
 */
export async function clearTheWay(cluster: string): Promise<boolean> {
  const found = processesOn(cluster);
  if (found.length > 0) {
    const postmaster = postmasterPid(cluster);
    // INT: roll back, write out, end. Without a postmaster the backends notice and end by themselves.
    if (postmaster !== undefined && found.includes(postmaster)) signal(postmaster, 'SIGINT');
    if (!(await goneWithin(cluster, FAST_MS))) {
      // Safe at any time: the log is replayed at the next start.
      for (const pid of processesOn(cluster)) signal(pid, 'SIGQUIT');
      if (!(await goneWithin(cluster, IMMEDIATE_MS)))
        for (const pid of processesOn(cluster)) signal(pid, 'SIGKILL');
      await goneWithin(cluster, IMMEDIATE_MS);
    }
  }
  // Postgres itself judges a stale pid file, and well; but it gives up when the pid has since gone to a stranger.
  const stale = postmasterPid(cluster);
  if (stale !== undefined && isAlive(stale) && !processesOn(cluster).includes(stale)) {
    rmSync(path.join(cluster, 'postmaster.pid'), { force: true });
  }
  return found.length > 0;
}

/** True when the process exists, whoever owns it. A zombie counts as existing, as it does for Postgres. */
export function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return isCode(error, 'EPERM');
  }
}

async function goneWithin(cluster: string, ms: number): Promise<boolean> {
  const deadline = performance.now() + ms;
  while (processesOn(cluster).length > 0) {
    if (performance.now() > deadline) return false;
    await sleep(10);
  }
  return true;
}

function postmasterPid(cluster: string): number | undefined {
  try {
    const pid = Number(readFileSync(path.join(cluster, 'postmaster.pid'), 'utf8').split('\n', 1)[0]);
    return Number.isInteger(pid) && pid > 0 ? pid : undefined;
  } catch {
    return undefined;
  }
}

/** Every process of every server on this folder: they all work in it. */
function processesOn(cluster: string): number[] {
  if (process.platform !== 'linux') return postmastersByArguments(cluster);
  const folder = realpathSync(cluster);
  return readdirSync('/proc')
    .filter((name) => /^\d+$/.test(name) && isServerIn(name, folder))
    .map(Number);
}

function isServerIn(pid: string, folder: string): boolean {
  try {
    if (readlinkSync(`/proc/${pid}/cwd`) !== folder) return false;
    return readFileSync(`/proc/${pid}/comm`, 'utf8').trim() === 'postgres';
  } catch {
    return false; // ended meanwhile, or another user's
  }
}

/** Without /proc only the postmaster can be told by its arguments; the pid file's shared memory key guards the rest. */
function postmastersByArguments(cluster: string): number[] {
  const { stdout } = spawnSync('ps', ['-axww', '-o', 'pid=,args='], { encoding: 'utf8' });
  return stdout
    .split('\n')
    .filter((line) => line.includes(`postgres -D ${cluster} `))
    .map((line) => Number.parseInt(line, 10));
}

function signal(pid: number, name: NodeJS.Signals): void {
  try {
    process.kill(pid, name);
  } catch {
    // ended by itself meanwhile
  }
}
