import { spawnSync } from 'node:child_process';
import { closeSync, constants, openSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:net';
import { hostname } from 'node:os';
import * as path from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { giveToOwnerOfFolder, type DataFolder } from './data-folder.js';
import { DataFolderHeldError, type FolderHolder } from './embedded-database-error.js';
import { isAlive } from './server-processes.js';
import { isCode } from './system-errors.js';

/** Held from before the server starts until after it has stopped. The kernel takes it back when the process dies. */
export interface FolderLock {
  readonly release: () => Promise<void>;
}

/** How long a lock may outlive its dead holder, for instance in a child between fork and exec. */
const GRACE_MS = 1_500;

/**
 * Takes the folder for this process or says who has it.
 * A file with a pid is not enough: two processes that both find it stale would both replace it. So the lock is one
 * that the kernel keeps; `holder.json` beside it only tells the loser whom to ask.
 * @throws DataFolderHeldError
 */
export async function lockFolder(folder: DataFolder): Promise<FolderLock> {
  const holderFile = path.join(folder.home, 'holder.json');
  const deadline = performance.now() + GRACE_MS;
  let lock = await tryLock(folder.home);
  while (lock === undefined) {
    const holder = readHolder(holderFile);
    if (performance.now() > deadline || (holder?.host === hostname() && isAlive(holder.pid))) {
      throw new DataFolderHeldError(folder.home, holder);
    }
    await sleep(50);
    lock = await tryLock(folder.home);
  }
  const { release } = lock;
  writeFileSync(holderFile, JSON.stringify({ pid: process.pid, host: hostname() }));
  giveToOwnerOfFolder(holderFile);
  return {
    release: () => {
      rmSync(holderFile, { force: true });
      return release();
    },
  };
}

async function tryLock(home: string): Promise<FolderLock | undefined> {
  const file = path.join(home, 'lock');
  if (process.platform === 'darwin') return lockByOpening(file);
  const descriptor = openSync(file, 'a+');
  giveToOwnerOfFolder(file);
  const name = flocked(descriptor) ? await bindName(file) : undefined;
  if (name === undefined) {
    closeSync(descriptor);
    return undefined;
  }
  return {
    release: () => {
      closeSync(descriptor);
      return name.release();
    },
  };
}

/**
 * flock(2) belongs to the open file, not to the process that asked for it: a short-lived `flock` given our descriptor
 * locks it for us, and the lock lasts as long as this process keeps the file open. Node opens files close-on-exec, so
 * no child can inherit it. Any other status than 1 means that there is no such tool: then the bound name is the lock.
 */
function flocked(descriptor: number): boolean {
  return (
    spawnSync('flock', ['-x', '-n', '3'], { stdio: ['ignore', 'ignore', 'ignore', descriptor] }).status !== 1
  );
}

/**
 * A socket name that one process at a time can bind (unix(7), abstract names). It is second best, as containers that
 * share a volume may not share a network namespace, so it comes on top of flock and not instead of it.
 */
function bindName(file: string): Promise<FolderLock | undefined> {
  const { dev, ino } = statSync(file);
  const server = createServer((socket) => socket.destroy());
  return new Promise((resolve, reject) => {
    server.once('error', (error) => (isCode(error, 'EADDRINUSE') ? resolve(undefined) : reject(error)));
    server.listen(`\0bayledger-folder-${dev}-${ino}`, () => {
      server.unref();
      resolve({ release: () => closeServer(server) });
    });
  });
}

function closeServer(server: Server): Promise<void> {
  return new Promise((resolve) => {
    server.close(() => {
      resolve();
    });
  });
}

/** macOS can lock while it opens (open(2), O_EXLOCK = 0x20). From the manual; not run by us. */
function lockByOpening(file: string): FolderLock | undefined {
  try {
    const descriptor = openSync(file, constants.O_RDWR | constants.O_CREAT | constants.O_NONBLOCK | 0x20);
    return {
      release: () => {
        closeSync(descriptor);
        return Promise.resolve();
      },
    };
  } catch (error) {
    if (isCode(error, 'EAGAIN')) return undefined;
    throw error;
  }
}

function readHolder(file: string): FolderHolder | undefined {
  try {
    const { pid, host } = JSON.parse(readFileSync(file, 'utf8')) as Partial<FolderHolder>;
    return typeof pid === 'number' && typeof host === 'string' ? { pid, host } : undefined;
  } catch {
    return undefined; // not written yet, or being written: the next look decides
  }
}
