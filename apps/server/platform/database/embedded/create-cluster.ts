import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync } from 'node:fs';
import * as path from 'node:path';
import type { Binaries } from './binaries.js';
import { giveTo, type DataFolder } from './data-folder.js';
import { EmbeddedDatabaseError } from './embedded-database-error.js';
import { hasName } from './server-identity.js';
import { spawnTied } from './spawn-tied.js';

/** The role that owns everything and runs migrations. What requests run as is a weaker role, made by a migration. */
export const OWNER_ROLE = 'bayledger_owner';

const DRAFT = 'cluster.draft';

/** Makes the cluster unless it is there. It appears under its name only when it is whole, however often it is killed. */
export async function ensureCluster(
  folder: DataFolder,
  binaries: Binaries,
  durable: boolean,
): Promise<boolean> {
  removeDrafts(folder.home);
  if (existsSync(folder.cluster)) {
    refuseOtherVersion(folder, binaries);
    return false;
  }
  const draft = path.join(folder.home, `${DRAFT}-${Date.now().toString(36)}`);
  mkdirSync(draft, { mode: 0o700 });
  giveTo(folder.identity, draft);
  await initdb(draft, folder, binaries, durable);
  renameSync(draft, folder.cluster);
  return true;
}

/** What a start that was killed has left. Its programs may write for another moment, so a failure here can wait. */
function removeDrafts(home: string): void {
  for (const name of readdirSync(home)) {
    if (!name.startsWith(DRAFT)) continue;
    try {
      rmSync(path.join(home, name), { recursive: true, force: true, maxRetries: 5, retryDelay: 50 });
    } catch {
      // the next start tries again
    }
  }
}

function refuseOtherVersion({ cluster }: DataFolder, { version }: Binaries): void {
  const made = readFileSync(path.join(cluster, 'PG_VERSION'), 'utf8').trim();
  const ours = version.split('.', 1)[0] ?? '';
  if (made === ours) return;
  throw new EmbeddedDatabaseError(
    'data-folder-unusable',
    `The data in ${cluster} was written by Postgres ${made}, and Postgres ${ours} cannot read it. ` +
      'Move it over with the release that wrote it.',
  );
}

async function initdb(
  draft: string,
  folder: DataFolder,
  binaries: Binaries,
  durable: boolean,
): Promise<void> {
  const locale = ['--encoding=UTF8', '--locale-provider=builtin', '--builtin-locale=C.UTF-8'];
  const rest = [
    '-D',
    draft,
    '-U',
    OWNER_ROLE,
    '--auth=trust',
    '--no-instructions',
    ...(durable ? [] : ['--no-sync']),
  ];
  // pg_trgm asks the C library what a letter is: with a character type of "C" it would drop ü and ż from names.
  const first = await runInitdb([...locale, '--lc-ctype=C.UTF-8', ...rest], folder, binaries);
  if (first === undefined) return;
  const second = /invalid locale name/.test(first)
    ? await runInitdb([...locale, ...rest], folder, binaries)
    : first;
  if (second === undefined) return;
  throw new EmbeddedDatabaseError(
    'server-start-failed',
    `The database could not be made in ${folder.home}: ${second}.`,
  );
}

/** @returns undefined when it worked, else what it said */
function runInitdb(args: string[], folder: DataFolder, { root }: Binaries): Promise<string | undefined> {
  const initdbProgram = path.join(root, 'bin', 'initdb');
  // initdb asks for the name of its user. In a user namespace of its own a nameless one can be shown as `nobody`.
  const [program, before] = hasName(folder.identity)
    ? [initdbProgram, []]
    : ['unshare', ['--user', '--map-user=65534', '--map-group=65534', '--', initdbProgram]];
  return new Promise((resolve) => {
    const { identity, home } = folder;
    const command = { identity, program, args: [...before, ...args], cwd: home };
    const child = spawnTied({ ...command, lastSignal: 'KILL', ownSession: false });
    let said = '';
    child.stderr.on('data', (chunk: Buffer) => (said += chunk.toString()));
    child.once('error', (error) => resolve(error.message));
    child.once('close', (code) =>
      resolve(code === 0 ? undefined : said.trim() || `initdb ended with ${code ?? 'a signal'}`),
    );
  });
}
