import {
  Logger as LibraryLogger,
  runTaskList,
  type LogFunctionFactory,
  type RunnerOptions,
  type WorkerPool,
} from 'graphile-worker';
import type pg from 'pg';
import type { Logger } from 'pino';
import { queuePool, QUEUE_SCHEMA } from './queue-connection.js';
import type { GivenUpJobs } from './given-up-jobs.js';
import type { QueueHandler } from './queue-tasks.js';
import type { QueueTiming } from './queue-timing.js';
import { SignOfLife } from './sign-of-life.js';
import { taskList } from './task-list.js';

const CONCURRENCY = 2;
/**
 * The library does not wait until the end of a job is written before it looks for the next one, so the next of the
 * same queue would wait for a poll. It looks again after these times.
 */
const LOOK_AGAIN_MS = [10, 50, 250];

export interface SessionParts {
  /** As the role that runs jobs. */
  readonly conn: pg.ClientConfig;
  readonly handlers: ReadonlyMap<string, QueueHandler>;
  readonly log: Logger;
  readonly timing: QueueTiming;
  readonly givenUp: GivenUpJobs;
}

/**
 * Runs jobs for as long as its connections last. When the session that shows it alive breaks, others may take its jobs,
 * so it aborts them and ends as a whole; whoever keeps it opens another one.
 */
export class QueueSession {
  /** Resolves with the reason when it ended by itself, with undefined when it was stopped. */
  readonly ended: Promise<string | undefined>;
  /** Of jobs that have not come to an end, perhaps after the session did. */
  readonly running = new Set<Promise<void>>();
  private readonly aborting = new AbortController();
  private readonly interrupted: string[] = [];
  private life: SignOfLife;
  private pool: pg.Pool;
  private workers: WorkerPool | undefined;
  private sweeping: NodeJS.Timeout | undefined;
  private tellEnded: (reason?: string) => void;
  private over = false;

  private constructor(private readonly parts: SessionParts) {
    this.ended = new Promise((resolve) => (this.tellEnded = resolve));
  }

  static async begin(parts: SessionParts): Promise<QueueSession> {
    const session = new QueueSession(parts);
    session.life = await SignOfLife.begin(parts.conn, parts.timing, {
      onLost: (reason) => session.break(reason),
      onTakenBack: (jobs) => parts.log.warn({ jobs }, 'took back jobs of a process that ended'),
    });
    if (session.life.isOver) throw new Error('the connection broke at once');
    session.work();
    return session;
  }

  /** Takes no more jobs, and finishes those that run or gives them back. */
  async stop(): Promise<void> {
    const { workers } = this;
    if (this.over || workers === undefined) return;
    this.over = true;
    const { finishMs, giveBackMs } = this.parts.timing;
    const impatient = setTimeout(() => this.abort(), finishMs);
    const finished = await within(giveBackMs, workers.gracefulShutdown());
    clearTimeout(impatient);
    try {
      if (!finished) {
        this.parts.log.warn({ jobs: this.running.size }, 'gave back jobs that did not end');
        await this.life.unlock(workers.id);
      } else if (this.interrupted.length > 0) await this.life.beginNow(this.interrupted);
    } catch (error) {
      this.parts.log.warn({ err: error }, 'the jobs of this process are taken back by the next one');
    }
    await this.close(finished);
    this.tellEnded();
  }

  private work(): void {
    const { conn, handlers, log, timing } = this.parts;
    this.pool = queuePool(conn, CONCURRENCY + 1);
    const tasks = taskList(handlers, log, {
      signal: this.aborting.signal,
      running: this.running,
      onDone: (job, error) => {
        if (error !== undefined && this.aborting.signal.aborted) this.interrupted.push(job.id);
        for (const ms of LOOK_AGAIN_MS) setTimeout(() => this.look(), ms).unref();
      },
    });
    this.workers = runTaskList(runnerOptions(this.life, log, timing), tasks, this.pool);
    this.sweeping = setInterval(() => this.sweep(), timing.givenUpLookMs).unref();
    this.sweep();
    this.workers.promise.then(
      () => this.break('it stopped by itself'),
      (error: unknown) => this.break(error instanceof Error ? error.message : String(error)),
    );
  }

  private sweep(): void {
    const { givenUp, log } = this.parts;
    givenUp.look(this.pool).catch((error: unknown) => {
      if (!this.over) log.warn({ err: error }, 'jobs that were given up could not be looked for');
    });
  }

  private look(): void {
    if (!this.over) this.workers?.nudge(CONCURRENCY);
  }

  private break(reason: string): void {
    if (this.over || this.workers === undefined) return;
    this.over = true;
    this.abort();
    void this.close(false).then(() => this.tellEnded(reason));
  }

  private abort(): void {
    this.aborting.abort(new Error('this process no longer has the job'));
  }

  private async close(finished: boolean): Promise<void> {
    clearInterval(this.sweeping);
    // The pool ends first, so that a run that goes on cannot remove a job that others have by then.
    const closed = this.pool.end().catch(() => undefined);
    if (!finished) void Promise.resolve(this.workers?.forcefulShutdown('given back')).catch(() => undefined);
    this.life.end();
    await within(1_000, closed);
  }
}

/**
 * Ends of jobs are written in batches of no delay: the library watches those, while a single one that fails would be a
 * rejection that nobody handles and end the process.
 */
export function runnerOptions(life: SignOfLife, log: Logger, timing: QueueTiming): RunnerOptions {
  return {
    schema: QUEUE_SCHEMA,
    logger: new LibraryLogger(toLog(log)),
    concurrency: CONCURRENCY,
    pollInterval: timing.pollMs,
    noHandleSignals: true,
    parsedCronItems: [],
    preset: {
      worker: { completeJobBatchDelay: 0, failJobBatchDelay: 0 },
      plugins: [
        {
          name: 'SignOfLifePlugin',
          version: '1.0.0',
          worker: {
            hooks: { startWorker: (_context, { worker }) => life.claim(worker.workerPool.id) },
          },
        },
      ],
    },
  };
}

function toLog(log: Logger): LogFunctionFactory {
  return () => (level, message) => {
    // Failures of handlers are told by us, with less in them.
    if (message.startsWith('Failed task')) return;
    const isTrouble = ['error', 'warning'].includes(level);
    log[isTrouble ? 'warn' : 'debug']({ library: message }, 'the job queue');
  };
}

/** @returns false when it took longer; then its end is nobody's business. */
async function within(ms: number, work: unknown): Promise<boolean> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<boolean>((resolve) => {
    timer = setTimeout(() => resolve(false), ms);
  });
  const done = Promise.resolve(work).then(
    () => true,
    () => false,
  );
  const inTime = await Promise.race([done, late]);
  clearTimeout(timer);
  return inTime;
}
