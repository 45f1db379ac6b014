import type { EntityManager } from 'typeorm';
import type { Actor } from '../context.js';
import { newId } from '../ids.js';

/** What changed, for the screens that watch: ids only, the reader fetches the rest. */
export interface LiveChange {
  readonly kind: string;
  readonly subjects: Readonly<Record<string, string>>;
}

/** How a job is queued. All of it holds within the shop: another shop's keys and queues are others. */
export interface JobOptions {
  /** At most one pending job of this task has it; a further one takes the place of the first, as `mode` says. */
  readonly key?: string;
  /** Jobs of one queue run one after another, in the order of their time; without one they run at once. */
  readonly queue?: string;
  /** Not before this time, by the wall clock (`tx.wall`), however fast the shop's runs. */
  readonly runAt?: Date;
  /**
   * When a job with the key is pending: `replace` (default) takes the new payload and time, `preserve_run_at` the new
   * payload at the old time. Beside a run that has begun both add one more job. `unsafe_dedupe` does nothing, even if
   * the earlier job has begun and so cannot know of this change, or was given up.
   */
  readonly mode?: 'replace' | 'preserve_run_at' | 'unsafe_dedupe';
  /** Runs before it is given up, 10 unless said; the waits between them grow as e^attempt seconds. */
  readonly maxAttempts?: number;
}

interface WantedJob extends JobOptions {
  readonly task: string;
  readonly payload: object;
}

const LIVE_EVENTS_KEPT_MS = 2 * 86_400_000;

/** An open transaction with everything a use case needs: the shop, who acts, the time it counts as, the database. */
export class Tx {
  private readonly changes: LiveChange[] = [];
  private readonly jobs: WantedJob[] = [];

  constructor(
    readonly shopId: string,
    readonly actor: Actor,
    readonly now: Date,
    readonly em: EntityManager,
    /** The time outside: sessions, tokens and locks end by it, however fast the shop's clock runs. */
    readonly wall: Date = now,
  ) {}

  newId(): string {
    return newId();
  }

  /** The acting member of staff; a use case that only staff reach may rely on it. */
  get staffId(): string {
    if (this.actor.kind !== 'staff') throw new Error(`expected staff, got ${this.actor.kind}`);
    return this.actor.staffId;
  }

  /** The session of the acting member of staff. */
  get sessionId(): string {
    if (this.actor.kind !== 'staff') throw new Error(`expected staff, got ${this.actor.kind}`);
    return this.actor.sessionId;
  }

  /** Rows of a SELECT, or of an INSERT/UPDATE/DELETE … RETURNING. */
  async rows<T>(sql: string, parameters: unknown[] = []): Promise<T[]> {
    const answer: unknown = await this.em.query(sql, parameters);
    // TypeORM answers UPDATE and DELETE with [rows, count] and everything else with the rows.
    if (
      Array.isArray(answer) &&
      answer.length === 2 &&
      Array.isArray(answer[0]) &&
      typeof answer[1] === 'number'
    )
      return answer[0] as T[];
    return answer as T[];
  }

  async one<T>(sql: string, parameters: unknown[] = []): Promise<T | undefined> {
    return (await this.rows<T>(sql, parameters))[0];
  }

  /** The next number of a series of this shop (repair orders, work orders); gaps only where a transaction failed. */
  async nextNumber(series: string, first: number): Promise<number> {
    const row = await this.one<{ value: number }>(
      `insert into counters (shop_id, name, value) values ($1, $2, $3)
       on conflict (shop_id, name) do update set value = counters.value + 1 returning value`,
      [this.shopId, series, first],
    );
    if (!row) throw new Error('a counter always answers');
    return row.value;
  }

  /** Tells the watching screens after commit. */
  announce(kind: string, subjects: Readonly<Record<string, string>>): void {
    this.changes.push({ kind, subjects });
  }

  /** What this transaction has announced so far. */
  get announced(): readonly LiveChange[] {
    return this.changes;
  }

  /**
   * Queues work that begins after commit, and only then: written by this transaction, so a rollback leaves no job.
   * @param payload plain JSON with ids only: jobs lie in the library's tables, outside row-level security. The shop is
   *   added by the database.
   */
  enqueue(task: string, payload: object, options: JobOptions = {}): void {
    const same = this.jobs.findIndex(
      (job) => options.key !== undefined && job.task === task && job.key === options.key,
    );
    if (same >= 0 && options.mode === 'unsafe_dedupe') return;
    if (same >= 0) this.jobs.splice(same, 1);
    this.jobs.push({ task, payload, ...options });
  }

  get hasJobs(): boolean {
    return this.jobs.length > 0;
  }

  /** Who did what to which record, kept for ever. */
  async audit(
    action: string,
    subjectKind: string,
    subjectId: string,
    detail: Readonly<Record<string, unknown>> = {},
  ): Promise<void> {
    const actor = this.actor;
    const who = actor.kind === 'staff' ? actor.staffId : actor.kind === 'owner' ? actor.linkId : null;
    await this.em.query(
      `insert into audit_entries (shop_id, id, at, actor_kind, actor_id, action, subject_kind, subject_id, detail)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9)`,
      [
        this.shopId,
        newId(),
        this.now,
        actor.kind,
        who,
        action,
        subjectKind,
        subjectId,
        JSON.stringify(detail),
      ],
    );
  }

  /** Writes what was announced and queued, last thing before commit. */
  async flush(): Promise<void> {
    await this.writeChanges();
    if (this.hasJobs) await this.em.query('select enqueue_jobs($1)', [JSON.stringify(this.jobs)]);
  }

  /**
   * The lock makes commits of one shop's events come in the order of
   * their ids: without it a reader that has seen id 8 would miss an id 7 that commits later. For each event that comes,
   * up to two go that are too old; whoever was away longer reads everything again.
   */
  private async writeChanges(): Promise<void> {
    if (this.changes.length === 0) return;
    await this.em.query(`select pg_advisory_xact_lock(hashtextextended('live:' || $1, 0))`, [this.shopId]);
    const rows = await this.rows<{ id: string }>(
      `with gone as (
         delete from live_events e using (
           select id, at from live_events where shop_id = $1 order by live_events.id limit ${2 * this.changes.length}) old
          where e.shop_id = $1 and e.id = old.id and old.at < $4)
       insert into live_events (shop_id, at, kind, subjects)
       select $1, $2, c->>'kind', c->'subjects' from jsonb_array_elements($3::jsonb) c returning id`,
      [
        this.shopId,
        this.now,
        JSON.stringify(this.changes),
        new Date(this.now.getTime() - LIVE_EVENTS_KEPT_MS),
      ],
    );
    await this.em.query(`select pg_notify('bayledger_live', $1)`, [
      `${this.shopId}:${rows.at(-1)?.id ?? ''}`,
    ]);
  }
}
