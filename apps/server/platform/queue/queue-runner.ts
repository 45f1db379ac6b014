import { setTimeout as sleep } from 'node:timers/promises';
import { runOnce } from 'graphile-worker';
import type pg from 'pg';
import type { Logger } from 'pino';
import { GivenUpJobs } from './given-up-jobs.js';
import { asQueueRole, queuePool, QUEUE_SCHEMA } from './queue-connection.js';
import { QueueSession, runnerOptions } from './queue-session.js';
import type { QueuedJob, QueueTasks } from './queue-tasks.js';
import { QUEUE_TIMING, type QueueTiming } from './queue-timing.js';
import { SignOfLife } from './sign-of-life.js';
import { taskList } from './task-list.js';

const FIRST_DELAY_MS = 100;
const LONGEST_DELAY_MS = 5_000;
/** For jobs of a session that broke, before this process begins some anew. */
const SETTLE_MS = 10_000;

/** What `runDue` did, in the order in which it ended. */
export interface DueRun {
  readonly done: readonly QueuedJob[];
  readonly failed: readonly { readonly job: QueuedJob; readonly error: unknown }[];
}

/** Runs queued jobs in this process, from `start` to `stop`, whatever the database does meanwhile. */
export class QueueRunner {
  readonly givenUp: GivenUpJobs;
  private readonly conn: pg.ClientConfig;
  private readonly timing: QueueTiming;
  private readonly stopping = new AbortController();
  private session: QueueSession | undefined;
  private keeping: Promise<void> | undefined;

  constructor(
    straight: pg.ClientConfig,
    private readonly tasks: QueueTasks,
    private readonly log: Logger,
    timing: Partial<QueueTiming> = {},
  ) {
    this.timing = { ...QUEUE_TIMING, ...timing };
    this.conn = asQueueRole(straight);
    this.givenUp = new GivenUpJobs(this.timing.givenUpKeepMs, log);
  }

  /** Begins to run jobs; returns at once. Does nothing when no module has a task. */
  start(): void {
    if (this.keeping === undefined && this.tasks.all.size > 0 && !this.stopping.signal.aborted)
      this.keeping = this.keep();
  }

  /** Running jobs are finished or given back; takes five seconds at most. To be called before the database goes. */
  async stop(): Promise<void> {
    this.stopping.abort();
    await this.session?.stop();
    await this.keeping;
  }

  async onModuleDestroy(): Promise<void> {
    await this.stop();
  }

  /**
   * Runs what is due, and what that queues, until nothing is left; for tests and for scripts. Jobs that fail wait
   * for their next attempt as always.
   */
  async runDue(): Promise<DueRun> {
    const done: QueuedJob[] = [];
    const failed: { job: QueuedJob; error: unknown }[] = [];
    const pool = queuePool(this.conn, 3);
    const life = await SignOfLife.begin(this.conn, this.timing, {
      onLost: () => undefined,
      onTakenBack: () => undefined,
    });
    try {
      const tasks = taskList(this.tasks.all, this.log, {
        signal: this.stopping.signal,
        running: new Set(),
        onDone: (job, error) => {
          if (error === undefined) done.push(job);
          else failed.push({ job, error });
        },
      });
      while (this.tasks.all.size > 0 && (await this.hasDue(pool)))
        await runOnce({ ...runnerOptions(life, this.log, this.timing), pgPool: pool, taskList: tasks });
    } finally {
      life.end();
      await pool.end();
    }
    return { done, failed };
  }

  private async hasDue(pool: pg.Pool): Promise<boolean> {
    const { rows } = await pool.query<{ due: boolean }>(
      `select exists (select from ${QUEUE_SCHEMA}._private_jobs j join ${QUEUE_SCHEMA}._private_tasks t on t.id = j.task_id
        where j.is_available and j.run_at <= now() and t.identifier = any ($1)) as due`,
      [[...this.tasks.all.keys()]],
    );
    return rows[0]?.due === true;
  }

  private async keep(): Promise<void> {
    const { signal } = this.stopping;
    for (let delay = FIRST_DELAY_MS; !this.isStopping(); delay = Math.min(delay * 2, LONGEST_DELAY_MS)) {
      try {
        const { conn, log, timing, givenUp } = this;
        const parts = { conn, handlers: this.tasks.all, log, timing, givenUp };
        this.session = await QueueSession.begin(parts);
        if (this.isStopping()) await this.session.stop();
        delay = FIRST_DELAY_MS;
        const reason = await this.session.ended;
        if (reason === undefined) return;
        this.log.warn({ reason }, 'running jobs was interrupted and begins again');
        const settled = Promise.allSettled(this.session.running);
        await Promise.race([settled, sleep(SETTLE_MS, undefined, { signal, ref: false })]);
      } catch (error) {
        if (!this.isStopping()) this.log.warn({ err: error }, 'the job queue cannot be reached');
      }
      await sleep(delay, undefined, { signal }).catch(() => undefined);
    }
  }

  private isStopping(): boolean {
    return this.stopping.signal.aborted;
  }
}
