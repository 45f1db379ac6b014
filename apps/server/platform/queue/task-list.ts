import type { JobHelpers, TaskList } from 'graphile-worker';
import type { Logger } from 'pino';
import { systemContext } from '../context.js';
import type { QueuedJob, QueueHandler } from './queue-tasks.js';

/** What runs at the moment, and what became of it. */
export interface TaskWatch {
  readonly signal: AbortSignal;
  readonly running: Set<Promise<void>>;
  readonly onDone: (job: QueuedJob, error?: unknown) => void;
}

/** The handlers as the library calls them. */
export function taskList(
  handlers: ReadonlyMap<string, QueueHandler>,
  log: Logger,
  watch: TaskWatch,
): TaskList {
  return Object.fromEntries(
    [...handlers].map(([task, handler]) => [
      task,
      (payload: unknown, helpers: JobHelpers) => {
        const run = runOne(jobOf(task, payload, helpers, watch.signal), handler, log, watch);
        watch.running.add(run);
        return run.finally(() => watch.running.delete(run));
      },
    ]),
  );
}

async function runOne(job: QueuedJob, handler: QueueHandler, log: Logger, watch: TaskWatch): Promise<void> {
  try {
    await handler(job);
  } catch (error) {
    watch.onDone(job, error);
    if (watch.signal.aborted) throw new Error('given back: the process stopped');
    const { task, id: jobId, shopId, attempt, maxAttempts } = job;
    const end =
      attempt < maxAttempts ? 'a job failed and will be tried again' : 'a job failed and is given up';
    log.error({ err: error, task, jobId, shopId, attempt, maxAttempts }, end);
    throw new Error(kindOf(error));
  }
  watch.onDone(job);
}

/** The library stores the message with the job, outside tenancy: a kind and a code, no words about a customer. */
function kindOf(error: unknown): string {
  if (!(error instanceof Error)) return 'not an error';
  const code = (error as { code?: unknown }).code;
  return typeof code === 'string' ? `${error.name} ${code}` : error.name;
}

function jobOf(task: string, payload: unknown, helpers: JobHelpers, signal: AbortSignal): QueuedJob {
  const { id, attempts, max_attempts } = helpers.job;
  const { shopId, ...rest } = payload as { shopId: string };
  return {
    id,
    task,
    shopId,
    payload: rest,
    attempt: attempts,
    maxAttempts: max_attempts,
    ctx: systemContext(shopId, `job ${task}`),
    signal,
  };
}
