import { spawn } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const DEFAULT_URL = 'http://127.0.0.1:3000';
/** One second of ours is an hour of the shop, so that a day of work takes seconds and still has a length. */
const FAST = 3600;
const START_LIMIT_MS = 60_000;
const STOP_LIMIT_MS = 10_000;

export interface FoundServer {
  readonly url: string;
  stop(): Promise<void>;
}

async function answers(url: string): Promise<boolean> {
  try {
    const response = await fetch(`${url}/api/v1/about`, { signal: AbortSignal.timeout(2000) });
    const about = (await response.json()) as { name?: string; demo?: unknown };
    if (about.name !== 'Bayledger') return false;
    if (!about.demo) throw new Error(`the server at ${url} has no demonstration shop; the tour needs one`);
    return true;
  } catch (error) {
    if (error instanceof Error && error.message.includes('demonstration shop')) throw error;
    return false;
  }
}

/** The server that is named or usually there; else one of our own in a temporary folder, gone afterwards. */
export async function findOrStartServer(
  given: string | undefined,
  say: (text: string) => void,
): Promise<FoundServer> {
  const url = given ?? DEFAULT_URL;
  if (await answers(url)) {
    say(`Using the server at ${url}.`);
    return { url, stop: () => Promise.resolve() };
  }
  if (given !== undefined) throw new Error(`no Bayledger answers at ${given}`);
  const dataDir = await mkdtemp(join(tmpdir(), 'bayledger-tour-'));
  const main = join(dirname(fileURLToPath(import.meta.url)), '../server/main.js');
  const child = spawn(process.execPath, [main], {
    env: {
      ...process.env,
      PORT: '0',
      HOST: '127.0.0.1',
      DATA_DIR: dataDir,
      DEMO_CLOCK_RATE: String(FAST),
      DATABASE_URL: undefined,
    },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const stop = async (): Promise<void> => {
    if (child.exitCode === null) {
      const gone = new Promise((resolve) => child.once('exit', resolve));
      child.kill('SIGTERM');
      const late = setTimeout(() => child.kill('SIGKILL'), STOP_LIMIT_MS);
      await gone;
      clearTimeout(late);
    }
    await rm(dataDir, { recursive: true, force: true });
  };
  try {
    const started = await addressOf(child);
    say(`No server is running, so this tour started its own at ${started}; an hour there is a second here.`);
    return { url: started, stop };
  } catch (error) {
    await stop();
    throw error;
  }
}

function addressOf(child: ReturnType<typeof spawn>): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = '';
    const limit = setTimeout(
      () => reject(new Error(`the server did not start in time:\n${said}`)),
      START_LIMIT_MS,
    );
    const done = (act: () => void): void => {
      clearTimeout(limit);
      act();
    };
    child.stdout?.on('data', (bytes: Buffer) => {
      said += bytes.toString();
      const url = /Bayledger is at (http:\/\/\S+)/.exec(said)?.[1];
      if (url) done(() => resolve(url));
    });
    child.stderr?.on('data', (bytes: Buffer) => {
      said += bytes.toString();
    });
    child.once('exit', (code) =>
      done(() => reject(new Error(`the server ended with ${code ?? 'a signal'}:\n${said}`))),
    );
  });
}
