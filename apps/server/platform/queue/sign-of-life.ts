import pg from 'pg';
import { QUEUE_SCHEMA } from './queue-connection.js';
import type { QueueTiming } from './queue-timing.js';

const ANSWER_LIMIT_MS = 10_000;

export interface TakenBack {
  readonly id: string;
  readonly task: string;
  readonly attempts: number;
  readonly maxAttempts: number;
}

export interface SignOfLifeEvents {
  /** The session is gone: from now on others may take this process for ended, and its jobs. Told once. */
  readonly onLost: (reason: string) => void;
  readonly onTakenBack: (jobs: readonly TakenBack[]) => void;
}

/**
 * Tells the other processes which runners are alive, and gives the jobs of those that are not back to the queue.
 *
 * The library frees the locks of a killed process after four hours, or when it is told by `force_unlock_workers` whose
 * they are. Here each runner holds an advisory lock under its id on a session that does nothing else. The lock ends with
 * the session: at once when the process is killed, by the server's idle limit when it froze or its machine is gone.
 * Whoever can take the lock of a runner knows that it has ended, whatever any clock says.
 */
export class SignOfLife {
  private readonly claims = new Map<string, Promise<unknown>>();
  private last: Promise<unknown> = Promise.resolve();
  private timer: NodeJS.Timeout | undefined;
  private over = false;

  private constructor(
    private readonly client: pg.Client,
    private readonly timing: QueueTiming,
    private readonly events: SignOfLifeEvents,
  ) {}

  static async begin(
    conn: pg.ClientConfig,
    timing: QueueTiming,
    events: SignOfLifeEvents,
  ): Promise<SignOfLife> {
    const client = new pg.Client({ ...conn, query_timeout: ANSWER_LIMIT_MS });
    const life = new SignOfLife(client, timing, events);
    client.on('error', (error) => life.lose(error.message));
    client.on('end', () => life.lose('the connection was closed'));
    try {
      await client.connect();
      for (const limit of ['idle_session_timeout', 'idle_in_transaction_session_timeout'])
        await client.query(`set ${limit} = ${timing.silentMs}`);
      await life.takeBack();
    } catch (error) {
      life.end();
      throw error;
    }
    life.schedule();
    return life;
  }

  /** Must have resolved before a runner of this id takes its first job. */
  async claim(runnerId: string): Promise<void> {
    if (this.over) throw new Error('the session is gone');
    const claim =
      this.claims.get(runnerId) ??
      this.inTurn(() => this.client.query(`select pg_advisory_lock(${lockOf('$1')})`, [runnerId]));
    this.claims.set(runnerId, claim);
    await claim;
  }

  /** Gives back what a runner of this process still holds. It must take no more jobs. */
  async unlock(runnerId: string): Promise<void> {
    await this.inTurn(async () => {
      await this.client.query(`select ${QUEUE_SCHEMA}.force_unlock_workers($1)`, [[runnerId]]);
      await this.client.query(WAKE);
    });
  }

  /** Lets jobs that a runner failed while stopping begin at once elsewhere, without the wait of a failed one. */
  async beginNow(ids: readonly string[]): Promise<void> {
    await this.inTurn(async () => {
      await this.client.query(`select ${QUEUE_SCHEMA}.reschedule_jobs($1, run_at => now())`, [ids]);
      await this.client.query(WAKE);
    });
  }

  get isOver(): boolean {
    return this.over;
  }

  end(): void {
    this.over = true;
    clearTimeout(this.timer);
    void this.client.end().catch(() => undefined);
  }

  private lose(reason: string): void {
    if (this.over) return;
    this.end();
    this.events.onLost(reason);
  }

  private schedule(): void {
    this.timer = setTimeout(() => {
      void this.inTurn(() => this.takeBack()).then(
        () => (this.over ? undefined : this.schedule()),
        () => undefined, // lost, and told
      );
    }, this.timing.lookMs).unref();
  }

  /** One after another on the one session, which a failure ends. */
  private inTurn<T>(work: () => Promise<T>): Promise<T> {
    const mine = this.last.then(work);
    this.last = mine.then(
      () => undefined,
      (error: unknown) => this.lose(error instanceof Error ? error.message : String(error)),
    );
    return mine;
  }

  private async takeBack(): Promise<void> {
    const mine = [...this.claims.keys()];
    const { rows } = await this.client.query<{ suspicious: boolean }>(SUSPICIOUS, [mine]);
    if (rows[0]?.suspicious !== true) return;
    await this.client.query('begin');
    const turn = await this.client.query<{ mine: boolean }>(
      `select pg_try_advisory_xact_lock(${lockOf("'all'")}) as mine`,
    );
    if (turn.rows[0]?.mine === true) await this.freeLocksOfEnded(mine);
    await this.client.query('commit');
  }

  /** One process at a time: what is free again could otherwise be taken, and freed once more by who looked earlier. */
  private async freeLocksOfEnded(mine: readonly string[]): Promise<void> {
    const ended = await this.client.query<{ id: string }>(ENDED, [mine]);
    const ids = ended.rows.map(({ id }) => id);
    const jobs = await this.client.query<TakenBack>(HELD, [ids]);
    await this.client.query(`select ${QUEUE_SCHEMA}.force_unlock_workers($1)`, [ids]);
    const queues = await this.client.query(FREE_QUEUES);
    if (jobs.rows.length > 0 || (queues.rowCount ?? 0) > 0) await this.client.query(WAKE);
    if (jobs.rows.length > 0) this.events.onTakenBack(jobs.rows);
  }
}

function lockOf(id: string): string {
  return `hashtextextended('job-runner:' || ${id}, 0)`;
}

const JOBS = `${QUEUE_SCHEMA}._private_jobs`;
const QUEUES = `${QUEUE_SCHEMA}._private_job_queues`;

/**
 * A runner that goes on after its lock was freed removes its finished job although another runs it by then, and that
 * one then finds no job by which to free the queue. Taking a job and freeing it set both rows in one statement, so a
 * queue that is locked without a job of the same runner is one that nobody will free.
 */
const WITHOUT_JOB = `q.locked_by is not null
  and not exists (select from ${JOBS} j where j.job_queue_id = q.id and j.locked_by = q.locked_by)`;

const SUSPICIOUS = `select exists (select from ${JOBS} where locked_by is not null and locked_by <> all ($1))
  or exists (select from ${QUEUES} q where ${WITHOUT_JOB}) as suspicious`;

const ENDED = `with holder as materialized (
    select locked_by as id from ${JOBS} where locked_by <> all ($1)
    union select locked_by from ${QUEUES} where locked_by <> all ($1))
  select id from holder where pg_try_advisory_xact_lock(${lockOf('id')})`;

const HELD = `select j.id, t.identifier as task, j.attempts, j.max_attempts as "maxAttempts"
  from ${JOBS} j join ${QUEUE_SCHEMA}._private_tasks t on t.id = j.task_id where j.locked_by = any ($1)`;

const FREE_QUEUES = `update ${QUEUES} q set locked_at = null, locked_by = null where ${WITHOUT_JOB}`;

/** The library's own notice that there is work. */
const WAKE = `select pg_notify('jobs:insert', '{"count": 2}')`;
