import { existsSync, readFileSync, realpathSync, statSync } from 'node:fs';
import * as path from 'node:path';

/** The user that the server process runs as. Empty: the user of this process. */
export type ServerIdentity = { readonly uid: number; readonly gid: number } | Record<string, never>;

/**
 * Postgres refuses to run as root. As an ordinary user there is nothing to choose; as root the server runs as the
 * owner of the data, else as the owner of the folder it will be made in, else as `postgres`, else as `nobody`.
 * Only the owner of existing data may be without a name: initdb insists on one, the server does not.
 */
export function serverIdentity(dataDir: string): ServerIdentity {
  if (process.getuid?.() !== 0) return {};
  const cluster = path.join(dataDir, 'cluster');
  if (existsSync(cluster)) {
    const { uid, gid } = statSync(cluster);
    if (uid !== 0) return { uid, gid };
  }
  const users = knownUsers();
  const owner = statSync(nearestExisting(dataDir)).uid;
  return (
    (owner === 0 ? undefined : users.find((user) => user.uid === owner)) ??
    users.find((user) => user.name === 'postgres') ??
    users.find((user) => user.name === 'nobody') ?? { uid: 65_534, gid: 65_534 }
  );
}

/** True when this user has a name, which initdb insists on. */
export function hasName(identity: ServerIdentity): boolean {
  const uid = 'uid' in identity ? identity.uid : process.getuid?.();
  return process.platform !== 'linux' || knownUsers().some((user) => user.uid === uid);
}

/** False when some folder on the way may not be entered by the server's user, such as one below root's 0700 home. */
export function canReach(identity: ServerIdentity, wanted: string): boolean {
  if (!('uid' in identity)) return true;
  for (let dir = realpathSync(nearestExisting(wanted)); ; dir = path.dirname(dir)) {
    const { uid, gid, mode } = statSync(dir);
    const enter = uid === identity.uid ? 0o100 : gid === identity.gid ? 0o010 : 0o001;
    if ((mode & enter) === 0) return false;
    if (dir === path.dirname(dir)) return true;
  }
}

function nearestExisting(wanted: string): string {
  let dir = path.resolve(wanted);
  while (!existsSync(dir)) dir = path.dirname(dir);
  return dir;
}

interface KnownUser {
  readonly name: string;
  readonly uid: number;
  readonly gid: number;
}

function knownUsers(): KnownUser[] {
  if (!existsSync('/etc/passwd')) return [];
  return readFileSync('/etc/passwd', 'utf8')
    .split('\n')
    .map((line) => line.split(':'))
    .map(([name = '', , uid, gid]) => ({ name, uid: Number(uid), gid: Number(gid) }))
    .filter((user) => user.name !== '' && user.uid >= 0 && user.gid >= 0);
}
