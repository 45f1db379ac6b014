import { spawn, type ChildProcessByStdio } from 'node:child_process';
import type { Readable, Writable } from 'node:stream';
import { createInterface } from 'node:readline';

export type Line = Readonly<Record<string, unknown>>;

/**
 * A program of ours that prints one JSON object a line. Kill what is left of it with `end()` after each test.
 * Its standard input stays open as long as the test runs: its end tells the program that the test itself was killed.
 */
export interface Child {
  readonly pid: number;
  /** All it has printed so far. */
  readonly lines: readonly Line[];
  readonly ended: Promise<{ readonly code: number | null; readonly signal: NodeJS.Signals | null }>;
  /** The first line, already printed or to come, that fits. Rejects when the program ends or `ms` pass without one. */
  line(fits: (line: Line) => boolean, ms?: number): Promise<Line>;
  kill(signal: NodeJS.Signals): void;
  end(): Promise<void>;
}

export function startChild(script: string, args: readonly string[], env: NodeJS.ProcessEnv = {}): Child {
  const options = {
    env: { ...process.env, ...env },
    stdio: ['pipe', 'pipe', 'pipe'] as ['pipe', 'pipe', 'pipe'],
  };
  const child: ChildProcessByStdio<Writable, Readable, Readable> = spawn(
    process.execPath,
    [script, ...args],
    options,
  );
  const lines: Line[] = [];
  const waiting = new Set<() => void>();
  const wake = () => [...waiting].forEach((look) => look());
  let said = '';
  let over = false;
  child.stderr.on('data', (chunk: Buffer) => (said += chunk.toString()));
  createInterface({ input: child.stdout }).on('line', (text) => {
    lines.push(JSON.parse(text) as Line);
    wake();
  });
  const ended = new Promise<{ code: number | null; signal: NodeJS.Signals | null }>((resolve) => {
    child.once('close', (code, signal) => {
      over = true;
      wake();
      resolve({ code, signal });
    });
  });
  const line: Child['line'] = (fits, ms = 20_000) =>
    new Promise((resolve, reject) => {
      const settle = (act: () => void) => {
        waiting.delete(look);
        clearTimeout(timer);
        act();
      };
      const refuse = (why: string) => {
        const tail = lines.slice(-3).map((each) => JSON.stringify(each));
        settle(() => reject(new Error(`${why}; last lines: ${tail.join(' ')} ${said}`)));
      };
      const look = () => {
        const found = lines.find(fits);
        if (found !== undefined) settle(() => resolve(found));
        else if (over) refuse('the program ended without the line that was waited for');
      };
      const timer = setTimeout(() => refuse(`no such line within ${ms} ms`), ms);
      waiting.add(look);
      look();
    });
  const end = async () => {
    if (!over) child.kill('SIGKILL');
    await ended;
  };
  return { pid: child.pid ?? 0, lines, ended, line, kill: (signal) => void child.kill(signal), end };
}
