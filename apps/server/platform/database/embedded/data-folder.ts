import { createHash } from 'node:crypto';
import { chmodSync, chownSync, existsSync, lstatSync, mkdirSync, mkdtempSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import * as path from 'node:path';
import { EmbeddedDatabaseError } from './embedded-database-error.js';
import { canReach, serverIdentity, type ServerIdentity } from './server-identity.js';
import { isCode, messageOf } from './system-errors.js';

/** Everything that root's server user must reach and that cannot stay in the project goes below this folder. */
export const SYSTEM_HOME = '/var/lib/bayledger';

/** `sun_path` holds 107 bytes and a zero on Linux, 103 on macOS (unix(7), unix(4)); the server adds `/.s.PGSQL.5432.lock`. */
const LONGEST_SOCKET_DIR = 103 - '/.s.PGSQL.5432.lock'.length;

/** What lies where. `home` is what the caller asked for, or its replacement when the server's user cannot get there. */
export interface DataFolder {
  readonly home: string;
  readonly cluster: string;
  readonly identity: ServerIdentity;
}

/** Makes the folder, with each new level open to the server's user whatever the umask says. */
export function openDataFolder(wanted: string): DataFolder {
  const asked = path.resolve(wanted);
  try {
    if (existsSync(asked) && !statSync(asked).isDirectory()) throw new Error('it is not a folder');
    const identity = serverIdentity(asked);
    if (canReach(identity, asked)) return make(asked, identity);
    // Two projects must not meet in one replacement folder, hence the digest of the path.
    const moved = path.join(SYSTEM_HOME, `data-${shortDigest(asked)}`);
    return make(moved, serverIdentity(moved));
  } catch (cause) {
    throw unusable(asked, cause);
  }
}

/** The same fault for every step that touches the folder: say which folder, whose it is not, and what the system said. */
export function unusable(home: string, cause: unknown): EmbeddedDatabaseError {
  if (cause instanceof EmbeddedDatabaseError) return cause;
  const detail = `The data folder ${home} cannot be used by this user: ${messageOf(cause)}.`;
  return new EmbeddedDatabaseError('data-folder-unusable', detail, { cause });
}

function make(home: string, identity: ServerIdentity): DataFolder {
  makeOpenFolder(home);
  return { home, cluster: path.join(home, 'cluster'), identity };
}

/** Like `mkdir -p`, but new folders may be entered by anyone; only the cluster and the socket folder are private. */
export function makeOpenFolder(dir: string): void {
  if (existsSync(dir)) return;
  makeOpenFolder(path.dirname(dir));
  mkdirSync(dir, { recursive: true });
  chmodSync(dir, 0o755);
  giveToOwnerOfFolder(dir);
}

/** As root in somebody's project, what we make belongs to that person too; a folder of root's stays root's. */
export function giveToOwnerOfFolder(file: string): void {
  if (process.getuid?.() !== 0) return;
  const { uid, gid } = statSync(path.dirname(file));
  chownSync(file, uid, gid);
}

export function giveTo(identity: ServerIdentity, file: string): void {
  if ('uid' in identity) chownSync(file, identity.uid, identity.gid);
}

/**
 * A 0700 folder for the server's socket: who can enter it is trusted, so nobody else may. Beside the data when the
 * path is short enough for a socket address, else in the temporary folder.
 */
export function openSocketFolder({ home, identity }: DataFolder): string {
  const beside = path.join(home, 'run');
  if (Buffer.byteLength(beside) <= LONGEST_SOCKET_DIR) {
    mkdirSync(beside, { recursive: true, mode: 0o700 });
    chmodSync(beside, 0o700);
    giveTo(identity, beside);
    return beside;
  }
  const name = `bayledger-${shortDigest(home)}`;
  for (const base of [tmpdir(), '/tmp']) {
    const dir = path.join(base, name);
    if (Buffer.byteLength(dir) <= LONGEST_SOCKET_DIR && canReach(identity, base))
      return claimTemporary(dir, identity);
  }
  throw new EmbeddedDatabaseError(
    'data-folder-unusable',
    `No folder with a short enough path for a socket was found.`,
  );
}

/** In a folder that anyone may write to, a folder found under our name may be a trap: it must be ours and private. */
function claimTemporary(dir: string, identity: ServerIdentity): string {
  let made = dir;
  try {
    mkdirSync(dir, { mode: 0o700 });
  } catch (error) {
    if (!isCode(error, 'EEXIST')) throw error;
    const found = lstatSync(dir);
    const owner = 'uid' in identity ? identity.uid : process.getuid?.();
    const ours = found.isDirectory() && found.uid === owner && (found.mode & 0o077) === 0;
    if (!ours) made = mkdtempSync(`${dir}-`);
  }
  giveTo(identity, made);
  return made;
}

function shortDigest(text: string): string {
  return createHash('sha256').update(text).digest('hex').slice(0, 12);
}
