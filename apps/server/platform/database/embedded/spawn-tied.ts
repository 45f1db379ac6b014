import { spawn, spawnSync, type ChildProcessByStdio } from 'node:child_process';
import type { Readable } from 'node:stream';
import type { ServerIdentity } from './server-identity.js';

export type TiedChild = ChildProcessByStdio<null, null, Readable>;

export interface TiedCommand {
  readonly identity: ServerIdentity;
  readonly program: string;
  readonly args: readonly string[];
  readonly cwd: string;
  /** What the child gets when this process is gone. */
  readonly lastSignal: 'INT' | 'KILL';
  /** In a session of its own, Ctrl-C in a terminal does not reach the child. */
  readonly ownSession: boolean;
}

/** Nothing of our environment leaks in, and messages are in English, which the launcher reads. */
const ENVIRONMENT = { PATH: process.env.PATH ?? '/usr/bin:/bin', LC_ALL: 'C', TZ: 'UTC' };

/**
 * Starts a program as the server's user. Where setpriv (util-linux) is there, the kernel ends the child when this
 * process dies, kill -9 included (prctl(2), PR_SET_PDEATHSIG); elsewhere the next start deals with what is left.
 */
export function spawnTied({ identity, program, args, cwd, lastSignal, ownSession }: TiedCommand): TiedChild {
  const options = { env: ENVIRONMENT, cwd, detached: ownSession };
  const stdio: ['ignore', 'ignore', 'pipe'] = ['ignore', 'ignore', 'pipe'];
  if (!canTie()) return spawn(program, args, { ...identity, ...options, stdio });
  // setpriv itself changes the user: a change of user after the call would undo the tie.
  const user =
    'uid' in identity
      ? ['--reuid', String(identity.uid), '--regid', String(identity.gid), '--clear-groups']
      : [];
  return spawn('setpriv', ['--pdeathsig', lastSignal, ...user, '--', program, ...args], {
    ...options,
    stdio,
  });
}

function canTie(): boolean {
  return process.platform === 'linux' && spawnSync('setpriv', ['--pdeathsig', 'INT', 'true']).status === 0;
}
