import { existsSync } from 'node:fs';
import { Worker } from 'node:worker_threads';
import type { GeneralAnswer } from './format.js';

/** What the solver says: ready to be asked, a plan, how sure it is, and that it is over. */
interface Said {
  readonly type: string;
  readonly status?: string;
  readonly output?: { readonly default?: string };
  readonly message?: string;
  readonly statistics?: Readonly<Record<string, unknown>>;
}

/** How long a solver that does not stop by itself is waited for. */
const GRACE_MS = 3000;
/** How long translating may take. */
const TRANSLATING_MS = 60_000;

/** Beside this file once it is built; a test runs what was built. */
function threadFile(): URL {
  const beside = new URL('./constraint-thread.js', import.meta.url);
  return existsSync(beside)
    ? beside
    : new URL('../../../dist/apps/bench/schedule/constraint-thread.js', import.meta.url);
}

/**
 * A constraint solver (Chuffed, in the WebAssembly build of MiniZinc) on a model in MiniZinc that prints its objective, a
 * whole number to be made small, as `objective=…`. The time is for solving; starting up and translating are given.
 */
export async function solveByConstraints(model: string, limitSeconds: number): Promise<GeneralAnswer> {
  const thread = new Worker(threadFile(), { stdout: true, stderr: true });
  let begun = performance.now();
  let timer: NodeJS.Timeout | undefined;
  const isInTime = (): boolean => performance.now() - begun <= limitSeconds * 1000;
  let [objective, proven]: [number | null, boolean] = [null, false];
  try {
    await new Promise<void>((resolve, reject) => {
      thread.on('error', reject);
      thread.on('message', (said: Said) => {
        if (said.type === 'ready') {
          // It says so again when it is over.
          if (timer !== undefined) return;
          begun = performance.now();
          timer = setTimeout(resolve, TRANSLATING_MS);
          const limit = String(Math.round(limitSeconds * 1000));
          const args = ['--solver', 'chuffed', '-f', '-a', '-s', '--solver-time-limit', limit];
          const files = { 'm.mzn': model };
          thread.postMessage({ jsonStream: true, files, args: [...args, '--output-mode', 'item', 'm.mzn'] });
        } else if (said.type === 'statistics' && said.statistics?.['flatTime'] !== undefined) {
          begun = performance.now();
          clearTimeout(timer);
          timer = setTimeout(resolve, limitSeconds * 1000 + GRACE_MS);
        } else if (said.type === 'solution') {
          const found = /objective=(\d+)/.exec(said.output?.default ?? '');
          // What comes in the time of grace does not count.
          if (found !== null && isInTime()) objective = Number(found[1]);
        } else if (said.type === 'status') proven = said.status === 'OPTIMAL_SOLUTION' && isInTime();
        else if (said.type === 'error') reject(new Error(said.message ?? 'The solver gave up.'));
        else if (said.type === 'exit') resolve();
      });
    });
  } finally {
    clearTimeout(timer);
    await thread.terminate();
  }
  return { objective, proven, ms: performance.now() - begun };
}
