import { spawn, type ChildProcess } from 'node:child_process';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { ROOT } from '../architecture/source-files.js';

/** The built server as a process of its own, on a data folder of its own, as `npm start` runs it. */
export class ServerProcess {
  private child: ChildProcess | undefined;
  said = '';

  constructor(
    readonly port: number,
    private readonly env: NodeJS.ProcessEnv,
  ) {}

  get url(): string {
    return `http://127.0.0.1:${this.port}`;
  }

  get pid(): number {
    return this.child?.pid ?? 0;
  }

  /** Resolves when it says that it is up. */
  async start(limitMs = 60_000): Promise<void> {
    const child = spawn(process.execPath, ['--enable-source-maps', join(ROOT, 'dist/apps/server/main.js')], {
      env: {
        ...process.env,
        HOST: '127.0.0.1',
        PORT: String(this.port),
        DATABASE_URL: undefined,
        ...this.env,
      },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    this.child = child;
    this.said = '';
    await new Promise<void>((resolve, reject) => {
      const late = setTimeout(() => reject(new Error(`the server did not start: ${this.said}`)), limitMs);
      const hear = (bytes: Buffer): void => {
        this.said += bytes.toString();
        if (!/Bayledger is at/.test(this.said)) return;
        clearTimeout(late);
        resolve();
      };
      child.stdout.on('data', hear);
      child.stderr.on('data', hear);
      child.once('exit', (code) => {
        clearTimeout(late);
        reject(new Error(`the server ended with ${code}: ${this.said}`));
      });
    });
  }

  /** Ends it and waits until it is gone. */
  async end(signal: NodeJS.Signals): Promise<void> {
    const child = this.child;
    if (!child || child.exitCode !== null || child.signalCode !== null) return;
    const gone = new Promise((resolve) => child.once('exit', resolve));
    child.kill(signal);
    await gone;
  }
}

/** A port that was free a moment ago; a server that is killed and started again keeps it. */
export async function freePort(): Promise<number> {
  const server = createServer();
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const address = server.address();
  await new Promise((resolve) => server.close(resolve));
  if (address === null || typeof address === 'string') throw new Error('no port');
  return address.port;
}
