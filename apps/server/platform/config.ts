import { randomBytes } from 'node:crypto';
import { chmodSync, existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';

/** Everything the environment decides, read once and frozen. */
export interface Config {
  readonly production: boolean;
  readonly host: string;
  readonly port: number;
  readonly dataDir: string;
  /** Null means: the server's own Postgres in `dataDir`. */
  readonly databaseUrl: string | null;
  /** Runs the migrations; may own tables and make roles. The same as `databaseUrl` unless given. */
  readonly databaseAdminUrl: string | null;
  readonly poolSize: number;
  readonly jwtSecret: string;
  /** Where an owner's link points to. Null: the address the request came in on. */
  readonly publicUrl: string | null;
  /** How many proxies of ours stand in front; only their word on a caller's address is believed. */
  readonly trustedProxies: number;
  readonly clockRate: number;
  /** From when shop time runs faster, in milliseconds since 1970; kept, so that a restart does not turn it back. */
  readonly clockSince: number;
  /** Make the demonstration shop when the database is empty. */
  readonly demoShop: boolean;
  /** Run queued jobs in this process. Without it the process answers requests only, and another must do the work. */
  readonly backgroundWork: boolean;
  readonly logLevel: string;
}

function whole(env: NodeJS.ProcessEnv, name: string, otherwise: number, min: number, max: number): number {
  const text = env[name];
  if (text === undefined || text === '') return otherwise;
  const value = Number(text);
  if (!Number.isInteger(value) || value < min || value > max) {
    throw new Error(`${name} must be a whole number from ${min} to ${max}, got "${text}"`);
  }
  return value;
}

function onOrOff(env: NodeJS.ProcessEnv, name: string, otherwise: boolean): boolean {
  const text = env[name];
  if (text === undefined || text === '') return otherwise;
  if (text !== 'on' && text !== 'off') throw new Error(`${name} must be on or off, got "${text}"`);
  return text === 'on';
}

/** What is made once for a data folder and then stays, such as its signing secret. */
function kept(dataDir: string, name: string, make: () => string): string {
  const file = join(dataDir, name);
  if (!existsSync(file)) {
    // Others may pass through the folder: started by root, the database runs as another user below it.
    mkdirSync(dataDir, { recursive: true, mode: 0o755 });
    if (process.platform !== 'win32') chmodSync(dataDir, 0o755);
    try {
      writeFileSync(file, make(), { mode: 0o600, flag: 'wx' });
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
    }
  }
  return readFileSync(file, 'utf8');
}

export function readConfig(env: NodeJS.ProcessEnv): Config {
  const production = env['NODE_ENV'] === 'production';
  const dataDir = resolve(env['DATA_DIR'] ?? '.data');
  const databaseUrl = env['DATABASE_URL'] ?? null;
  const given = env['JWT_SECRET'];
  if (given !== undefined && given.length < 32)
    throw new Error('JWT_SECRET must have at least 32 characters; make one with: openssl rand -base64 48');
  if (production && databaseUrl !== null && given === undefined)
    throw new Error('JWT_SECRET is needed in production with DATABASE_URL, the same for every process');
  const clockRate = whole(env, 'DEMO_CLOCK_RATE', 1, 1, 10_000);
  if (production && clockRate !== 1)
    throw new Error('DEMO_CLOCK_RATE is for demonstrations, not for production');
  return Object.freeze({
    production,
    host: env['HOST'] ?? '127.0.0.1',
    port: whole(env, 'PORT', 3000, 0, 65_535),
    dataDir,
    databaseUrl,
    databaseAdminUrl: env['DATABASE_ADMIN_URL'] ?? databaseUrl,
    poolSize: whole(env, 'DATABASE_POOL', 10, 1, 200),
    jwtSecret: given ?? kept(dataDir, 'jwt-secret', () => randomBytes(48).toString('base64url')),
    publicUrl: env['PUBLIC_URL'] ?? null,
    trustedProxies: whole(env, 'TRUSTED_PROXIES', 0, 0, 10),
    clockRate,
    clockSince: clockRate === 1 ? 0 : Number(kept(dataDir, 'demo-clock-since', () => String(Date.now()))),
    demoShop: !production && env['DEMO_SHOP'] !== 'no',
    backgroundWork: onOrOff(env, 'BACKGROUND_WORK', true),
    logLevel: env['LOG_LEVEL'] ?? (production ? 'info' : 'warn'),
  });
}
