import { startPostmaster, type Postmaster, type ServerPlan } from './postmaster.js';
import { clearTheWay } from './server-processes.js';
import { messageOf } from './system-errors.js';

const FIRST_DELAY_MS = 100;
const LONGEST_DELAY_MS = 5_000;
/** A server that ran this long had recovered: the next failure starts from the short delay again. */
const STEADY_MS = 30_000;

/** What befell the server while the program was running, for its log. */
export type ServerEvent =
  | { readonly kind: 'server-ended'; readonly reason: string; readonly restartInMs: number }
  | { readonly kind: 'server-restarted'; readonly tookMs: number }
  | { readonly kind: 'restart-failed'; readonly reason: string; readonly restartInMs: number };

export interface Supervisor {
  stop(): Promise<void>;
}

/**
 * Keeps one server running until it is told to stop. If the server dies, by a crash or by a hand, it is started
 * again on the same data and the same socket, so a pool only sees connections that broke.
 */
export async function superviseServer(
  plan: ServerPlan,
  onEvent: (event: ServerEvent) => void,
): Promise<Supervisor> {
  const stopping = new AbortController();
  let current: Postmaster | undefined = await startPostmaster(plan);
  const onExit = () => current?.signalStop();
  process.once('exit', onExit);
  const watch = async (): Promise<void> => {
    let delay = FIRST_DELAY_MS;
    while (current !== undefined) {
      const since = performance.now();
      const reason = await current.ended;
      if (stopping.signal.aborted) return;
      if (performance.now() - since > STEADY_MS) delay = FIRST_DELAY_MS;
      current = undefined;
      onEvent({ kind: 'server-ended', reason, restartInMs: delay });
      const down = performance.now();
      while (current === undefined) {
        if (!(await pause(delay, stopping.signal))) return;
        delay = Math.min(delay * 2, LONGEST_DELAY_MS);
        try {
          await clearTheWay(plan.folder.cluster);
          current = await startPostmaster(plan);
          onEvent({ kind: 'server-restarted', tookMs: Math.round(performance.now() - down) });
        } catch (error) {
          onEvent({ kind: 'restart-failed', reason: messageOf(error), restartInMs: delay });
        }
      }
    }
  };
  const watching = watch();
  return {
    stop: async () => {
      stopping.abort();
      process.off('exit', onExit);
      await current?.stop();
      await watching;
      await current?.stop(); // one that was being started when the word came
    },
  };
}

/** @returns false when it was cut short */
function pause(ms: number, signal: AbortSignal): Promise<boolean> {
  return new Promise((resolve) => {
    const end = (whole: boolean) => {
      clearTimeout(timer);
      signal.removeEventListener('abort', cut);
      resolve(whole);
    };
    const cut = () => end(false);
    const timer = setTimeout(() => end(true), ms);
    signal.addEventListener('abort', cut);
    if (signal.aborted) cut();
  });
}
