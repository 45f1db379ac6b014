import { Socket } from 'node:net';
import * as path from 'node:path';
import type { DataFolder } from './data-folder.js';
import { EmbeddedDatabaseError } from './embedded-database-error.js';
import { spawnTied, type TiedChild } from './spawn-tied.js';

/** Replaying the log after a crash of a busy shop's server takes seconds; a start that takes longer than this hangs. */
const START_LIMIT_MS = 300_000;
const FAST_STOP_MS = 20_000;
const IMMEDIATE_STOP_MS = 5_000;
const LAST_WORDS_MS = 200;

export interface ServerPlan {
  readonly folder: DataFolder;
  readonly binariesRoot: string;
  readonly socketDir: string;
  readonly flags: readonly string[];
}

/** One running server process. */
export interface Postmaster {
  readonly pid: number;
  /** Settles when the process has ended, with its last words. */
  readonly ended: Promise<string>;
  /** Rolls back what is open, writes out the rest and waits for the end. */
  stop(): Promise<void>;
  /** For the moment when this process is about to exit and can no longer wait. */
  signalStop(): void;
}

/** Starts the server and waits until it takes connections. It listens on its private socket and nowhere else. */
export async function startPostmaster(plan: ServerPlan): Promise<Postmaster> {
  const child = spawnServer(plan);
  let log = '';
  const ended = new Promise<string>((resolve) => {
    child.once('error', (error) => resolve(error.message));
    child.once('exit', (code, signal) => {
      const tell = () => resolve(`it ended with ${signal ?? code ?? 'nothing'}. ${lastLines(log)}`);
      // The last words may still be in the pipe; but backends of a killed server can hold it open for long.
      child.once('close', tell);
      setTimeout(tell, LAST_WORDS_MS).unref();
    });
  });
  const ready = new Promise<'ready'>((resolve) => {
    child.stderr.on('data', (chunk: Buffer) => {
      log = (log + chunk.toString()).slice(-4_000);
      if (log.includes('ready to accept connections')) resolve('ready');
    });
  });
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<string>((resolve) => {
    timer = setTimeout(() => resolve(`it was not ready after ${START_LIMIT_MS / 1000} s`), START_LIMIT_MS);
  });
  const outcome = await Promise.race([ready, ended, late]);
  clearTimeout(timer);
  if (outcome !== 'ready' || child.pid === undefined) {
    child.kill('SIGQUIT');
    const detail = `The built-in database in ${plan.folder.home} did not start: ${outcome}.`;
    throw new EmbeddedDatabaseError('server-start-failed', detail);
  }
  // The server alone must not keep this process alive; the pipe is read as long as something else does.
  child.unref();
  if (child.stderr instanceof Socket) child.stderr.unref();
  return {
    pid: child.pid,
    ended,
    stop: () => stop(child, ended),
    signalStop: () => void child.kill('SIGINT'),
  };
}

function spawnServer({ folder, binariesRoot, socketDir, flags }: ServerPlan): TiedChild {
  const settings = ['listen_addresses=', 'unix_socket_permissions=0700', 'log_min_error_statement=panic'];
  return spawnTied({
    identity: folder.identity,
    program: path.join(binariesRoot, 'bin', 'postgres'),
    args: [
      '-D',
      folder.cluster,
      '-k',
      socketDir,
      ...settings.flatMap((setting) => ['-c', setting]),
      ...flags,
    ],
    cwd: folder.cluster,
    lastSignal: 'INT',
    // After Ctrl-C the program still answers its last requests; it stops the server itself, when they are done.
    ownSession: true,
  });
}

async function stop(child: TiedChild, ended: Promise<string>): Promise<void> {
  child.ref();
  for (const [signal, ms] of [
    ['SIGINT', FAST_STOP_MS],
    ['SIGQUIT', IMMEDIATE_STOP_MS],
    ['SIGKILL', IMMEDIATE_STOP_MS],
  ] as const) {
    child.kill(signal);
    let timer: NodeJS.Timeout | undefined;
    const late = new Promise<'late'>((resolve) => (timer = setTimeout(() => resolve('late'), ms)));
    const outcome = await Promise.race([ended, late]);
    clearTimeout(timer);
    if (outcome !== 'late') return;
  }
}

function lastLines(log: string): string {
  return log.trim().split('\n').slice(-5).join('\n');
}
