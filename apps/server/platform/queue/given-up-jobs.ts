import type pg from 'pg';
import type { Logger } from 'pino';
import { QUEUE_SCHEMA } from './queue-connection.js';

const JOBS = `${QUEUE_SCHEMA}._private_jobs`;
const GIVEN_UP = 'attempts >= max_attempts and locked_at is null';

const REMOVE = `with removed as (
    delete from ${JOBS} where ${GIVEN_UP} and updated_at < now() - make_interval(secs => $1) returning task_id)
  select t.identifier as task, count(*)::int as jobs from removed r
    join ${QUEUE_SCHEMA}._private_tasks t on t.id = r.task_id group by t.identifier order by t.identifier`;

/**
 * Jobs that failed as often as they may. They stay for a while, so that somebody can look into them and let them run
 * again, and are removed after that, as nobody would ever do it.
 */
export class GivenUpJobs {
  private last: number | null = null;

  constructor(
    private readonly keepMs: number,
    private readonly log: Logger,
  ) {}

  /** How many there were at the last look of this process, of all shops; null before the first. */
  get count(): number | null {
    return this.last;
  }

  async look(pool: pg.Pool): Promise<void> {
    const removed = await pool.query<{ task: string; jobs: number }>(REMOVE, [this.keepMs / 1000]);
    for (const { task, jobs } of removed.rows)
      this.log.warn(
        { task, jobs, days: this.keepMs / 86_400_000 },
        'removed jobs that were given up long ago',
      );
    const left = await pool.query<{ jobs: number }>(
      `select count(*)::int as jobs from ${JOBS} where ${GIVEN_UP}`,
    );
    const jobs = left.rows[0]?.jobs ?? 0;
    if (jobs > (this.last ?? 0)) this.log.warn({ jobs }, 'there are jobs that were given up');
    this.last = jobs;
  }
}
