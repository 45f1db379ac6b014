import { setTimeout as sleep } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import pg from 'pg';
import { pino, type Logger } from 'pino';
import { DataSource } from 'typeorm';
import { fail, ok } from '#libs/kernel';
import { Clock } from '#server/platform/clock';
import { systemContext } from '#server/platform/context';
import { typeormOptions } from '#server/platform/database/open-database';
import type { Tx } from '#server/platform/database/tx';
import { UnitOfWork } from '#server/platform/database/unit-of-work';
import {
  QUEUE_TIMING,
  QueueRunner,
  QueueTasks,
  Reactions,
  type QueueHandler,
  type QueueTiming,
} from '#server/platform/queue/index';
import { startChild, type Child } from '../support/child.js';
import { freshDatabase, type TestDatabase } from '../support/database.js';
import { until } from '../support/until.js';

const A = '0190d3a0-0000-7000-8000-00000000000a';
const B = '0190d3a0-0000-7000-8000-00000000000b';
const RUNNER = fileURLToPath(new URL('../support/job-runner.mjs', import.meta.url));
/** As always, only sooner; the test of a killed process keeps the real ones. */
const HURRIED = { lookMs: 300, silentMs: 2_000, finishMs: 500, giveBackMs: 1_000 };
const silent = pino({ level: 'silent' });

interface StoredJob {
  id: string;
  key: string | null;
  payload: Record<string, unknown>;
  attempts: number;
  max_attempts: number;
  is_available: boolean;
  locked_by: string | null;
  last_error: string | null;
  /** Until it may run, seconds. */
  wait: number;
}

describe('work that is queued by a transaction', () => {
  let database: TestDatabase;
  let source: DataSource;
  let owner: pg.Client;
  let uow: UnitOfWork;
  let reactions: Reactions;
  let runners: QueueRunner[];
  let children: Child[];

  beforeAll(async () => {
    database = await freshDatabase();
    source = await new DataSource({ ...typeormOptions(database.conn), poolSize: 5 }).initialize();
    owner = new pg.Client(database.conn);
    await owner.connect();
    // There are no shops in this copy, only their jobs.
    await owner.query('alter table live_events drop constraint live_events_shop');
  });
  beforeEach(() => {
    [runners, children, reactions] = [[], [], new Reactions()];
    uow = new UnitOfWork(source, new Clock(), reactions);
  });
  afterEach(async () => {
    await Promise.all([...runners.map((runner) => runner.stop()), ...children.map((child) => child.end())]);
    await owner.query('delete from graphile_worker._private_jobs');
    await owner.query('update graphile_worker._private_job_queues set locked_by = null, locked_at = null');
  });
  afterAll(async () => {
    await owner.end();
    await source.destroy();
    await database.drop();
  });

  const act = (work: (tx: Tx) => void, shop = A): Promise<undefined> =>
    uow.run(systemContext(shop, 'test'), (tx) => {
      work(tx);
      return Promise.resolve(ok(undefined));
    });
  const jobs = async (): Promise<StoredJob[]> => {
    const { rows } = await owner.query<StoredJob>(
      `select *, extract(epoch from run_at - now())::float8 as wait from graphile_worker._private_jobs order by id`,
    );
    return rows;
  };
  function runner(handlers: Record<string, QueueHandler>, log: Logger = silent): QueueRunner {
    const tasks = new QueueTasks();
    for (const [task, handler] of Object.entries(handlers)) tasks.add(task, handler);
    const made = new QueueRunner(database.conn, tasks, log, HURRIED);
    runners.push(made);
    return made;
  }
  function running(handlers: Record<string, QueueHandler>, log?: Logger): QueueRunner {
    const made = runner(handlers, log);
    made.start();
    return made;
  }
  async function process(timing: Partial<QueueTiming> = {}): Promise<Child> {
    const child = startChild(RUNNER, [JSON.stringify(database.conn), JSON.stringify(timing)]);
    children.push(child);
    await child.line((line) => line['ready'] === true);
    return child;
  }
  const untilJobs = async (fits: (found: StoredJob[]) => boolean): Promise<StoredJob[]> => {
    const deadline = Date.now() + 15_000;
    for (;;) {
      const found = await jobs();
      if (fits(found)) return found;
      if (Date.now() > deadline) throw new Error(`it did not come to pass: ${JSON.stringify(found)}`);
      await sleep(20);
    }
  };

  describe('is written with it', () => {
    it('a rollback leaves no job, a commit exactly one, whose payload names the shop', async () => {
      const refused = uow.run(systemContext(A, 'test'), (tx) => {
        tx.enqueue('plan', { because: 'refused' });
        return Promise.resolve(fail('not-found', 'no'));
      });
      await expect(refused).rejects.toThrow('not-found');
      const broken = uow.run(systemContext(A, 'test'), async (tx) => {
        tx.enqueue('plan', { because: 'broken' });
        return ok(await tx.one('select 1/0'));
      });
      await expect(broken).rejects.toThrow('division by zero');
      expect(await jobs()).toEqual([]);
      await act((tx) => tx.enqueue('plan', { repairOrderId: 'r', shopId: B }));
      const [job, ...more] = await jobs();
      expect(more).toEqual([]);
      expect(job).toMatchObject({ payload: { repairOrderId: 'r', shopId: A }, max_attempts: 10, key: null });
    });

    it('is there once when the transaction was tried again', async () => {
      let attempts = 0;
      await uow.run(systemContext(A, 'test'), async (tx) => {
        attempts += 1;
        tx.enqueue('plan', { attempts });
        if (attempts < 3)
          await tx.rows(`do $$ begin raise exception 'deadlock' using errcode = '40P01'; end $$`);
        return ok(undefined);
      });
      expect((await jobs()).map((job) => job.payload)).toEqual([{ attempts: 3, shopId: A }]);
    });

    it('cannot be asked for by a query', async () => {
      const asked = uow.read(systemContext(A, 'test'), (tx) => {
        tx.enqueue('plan', {});
        return Promise.resolve(ok(undefined));
      });
      await expect(asked).rejects.toThrow('a query queues no jobs');
      expect(await jobs()).toEqual([]);
    });

    it('follows what a transaction announces, by one call with the changes of those kinds', async () => {
      const seen: string[][] = [];
      reactions.on(['claim', 'clock-entry'], (changes, tx) => {
        seen.push(changes.map(({ kind }) => kind));
        tx.announce('claim', { by: 'the reaction' });
        tx.enqueue('plan', {}, { key: 'shop' });
      });
      await act((tx) => tx.announce('photo', {}));
      expect(await jobs()).toEqual([]);
      await act((tx) => {
        tx.announce('claim', {});
        tx.announce('photo', {});
        tx.announce('clock-entry', {});
      });
      expect(seen).toEqual([['claim', 'clock-entry']]);
      expect(await jobs()).toHaveLength(1);
    });
  });

  describe('keeps shops apart', () => {
    it('the role of the transactions may do nothing with the queue but add jobs of its shop', async () => {
      const { rows } = await owner.query<{ name: string; may: boolean }>(
        `select relname as name, has_schema_privilege('bayledger_app', relnamespace, 'usage')
                  or has_any_column_privilege('bayledger_app', c.oid, 'select, insert, update, references') as may
           from pg_class c where relnamespace = 'graphile_worker'::regnamespace and relkind in ('r', 'v', 'S')`,
      );
      expect(rows.length).toBeGreaterThan(4);
      expect(rows.filter(({ may }) => may)).toEqual([]);
      const read = uow.read(systemContext(A, 'test'), (tx) =>
        tx.rows('select * from graphile_worker.jobs').then(ok),
      );
      await expect(read).rejects.toThrow('permission denied');
      const unsaid = uow.bySignInAddress('x@example.test', (em) =>
        em.query(`select enqueue_jobs('[{"task": "plan", "payload": {}}]')`),
      );
      await expect(unsaid).rejects.toThrow('a job is always for a shop');
    });

    it('the role that runs jobs may touch nothing else', async () => {
      const { rows } = await owner.query<{ name: string }>(
        `select oid::regclass::text as name from pg_class
          where relnamespace = 'public'::regnamespace and relkind in ('r', 'p', 'v', 'S')
            and has_table_privilege('bayledger_queue', oid, 'select, insert, update, delete')`,
      );
      expect(rows).toEqual([]);
    });

    it('keys and queues of two shops are two', async () => {
      for (const shop of [A, B])
        await act((tx) => tx.enqueue('plan', {}, { key: 'shop', queue: 'plan' }), shop);
      expect((await jobs()).map(({ payload }) => payload['shopId'])).toEqual([A, B]);
      const { rows } = await owner.query(
        `select count(distinct job_queue_id)::int as queues, count(distinct key)::int as keys from graphile_worker._private_jobs`,
      );
      expect(rows).toEqual([{ queues: 2, keys: 2 }]);
    });

    it('a handler acts for the shop of its job', async () => {
      const acted: unknown[] = [];
      const handler: QueueHandler = ({ ctx, shopId, payload, attempt }) =>
        uow.read(ctx, async (tx) => {
          acted.push([shopId, payload, attempt, await tx.one('select current_shop() as shop')]);
          return ok(undefined);
        });
      for (const shop of [A, B]) await act((tx) => tx.enqueue('plan', { n: 1 }), shop);
      await runner({ plan: handler }).runDue();
      expect(acted).toEqual([A, B].map((shop) => [shop, { n: 1 }, 1, { shop }]));
    });
  });

  describe('with a key', () => {
    it('a hundred at once are one pending job, with the payload of the last', async () => {
      await act((tx) => {
        for (let n = 0; n < 50; n += 1) tx.enqueue('plan', { n }, { key: 'shop' });
      });
      await Promise.all(
        Array.from({ length: 100 }, (_, n) => act((tx) => tx.enqueue('plan', { n }, { key: 'shop' }))),
      );
      await act((tx) => tx.enqueue('plan', { n: 'last' }, { key: 'shop' }));
      expect((await jobs()).map(({ payload }) => payload)).toEqual([{ n: 'last', shopId: A }]);
    });

    it('the time of the first is kept when asked for, else it is that of the last', async () => {
      const later = (seconds: number): Date => new Date(Date.now() + seconds * 1000);
      await act((tx) => tx.enqueue('plan', {}, { key: 'k', runAt: later(100) }));
      await act((tx) => tx.enqueue('plan', {}, { key: 'k', runAt: later(500), mode: 'preserve_run_at' }));
      expect((await jobs())[0]?.wait).toBeLessThan(101);
      await act((tx) => tx.enqueue('plan', {}, { key: 'k', runAt: later(500) }));
      expect((await jobs())[0]?.wait).toBeGreaterThan(400);
    });

    it('beside a run that has begun, any number more are exactly one more', async () => {
      let [begun, ended] = [0, 0];
      let release: () => void = () => undefined;
      const held = new Promise<void>((resolve) => void (release = resolve));
      running({
        plan: async () => {
          begun += 1;
          if (begun === 1) await held;
          ended += 1;
        },
      });
      const options = { key: 'shop', queue: 'plan' };
      await act((tx) => tx.enqueue('plan', {}, options));
      await until(() => begun === 1);
      for (let n = 0; n < 20; n += 1) await act((tx) => tx.enqueue('plan', { n }, options));
      expect(await jobs()).toHaveLength(2);
      release();
      await untilJobs((found) => found.length === 0);
      expect([begun, ended]).toEqual([2, 2]);
    });

    it('one that comes in the moment in which a runner takes the pending one is not lost', async () => {
      await act((tx) => tx.enqueue('plan', { n: 1 }, { key: 'shop' }));
      // What a runner does, with its commit held back until the transaction stands in its way.
      await owner.query('begin');
      await owner.query(
        `update graphile_worker._private_jobs set attempts = attempts + 1, locked_by = 'pool-x', locked_at = now()`,
      );
      const second = act((tx) => tx.enqueue('plan', { n: 2 }, { key: 'shop' }));
      await sleep(300);
      await owner.query('commit');
      await second;
      expect((await jobs()).map(({ payload, locked_by }) => [payload['n'], locked_by])).toEqual([
        [1, 'pool-x'],
        [2, null],
      ]);
    });
  });

  describe('is run', () => {
    it('within a moment of the commit', async () => {
      const took: number[] = [];
      let committed = 0;
      const made = running({
        plan: () => {
          took.push(Date.now() - committed);
          return Promise.resolve();
        },
      });
      await act((tx) => tx.enqueue('plan', {}));
      await until(() => took.length === 1);
      for (let n = 2; n < 12; n += 1) {
        committed = Date.now();
        await act((tx) => tx.enqueue('plan', {}));
        await until(() => took.length === n);
      }
      const sorted = took.slice(1).sort((a, b) => a - b);
      expect(sorted[5]).toBeLessThan(500);
      await made.stop();
    });

    it('one at a time of a queue by two runners, and side by side without one', async () => {
      let [now, most, done] = [0, 0, 0];
      const plan: QueueHandler = async () => {
        now += 1;
        most = Math.max(most, now);
        await sleep(30);
        now -= 1;
        done += 1;
      };
      running({ plan });
      running({ plan });
      await act((tx) => {
        for (let n = 0; n < 12; n += 1) tx.enqueue('plan', { n }, { queue: 'plan' });
      });
      await until(() => done === 12);
      expect(most).toBe(1);
      [most, done] = [0, 0];
      await act((tx) => {
        for (let n = 0; n < 12; n += 1) tx.enqueue('plan', { n });
      });
      await until(() => done === 12);
      expect(most).toBeGreaterThan(1);
      expect(most).toBeLessThanOrEqual(4);
    });

    it('by whoever knows the task; an unknown one stands in nobody’s way and is not touched', async () => {
      await act((tx) => {
        tx.enqueue('nobody-knows', {});
        tx.enqueue('plan', {});
      });
      const { done, failed } = await runner({ plan: () => Promise.resolve() }).runDue();
      expect([done.map(({ task }) => task), failed]).toEqual([['plan'], []]);
      expect((await jobs()).map(({ attempts }) => attempts)).toEqual([0]);
    });

    it('to the end by runDue, with what it queues itself, though a queue lets one through at a time', async () => {
      const plan: QueueHandler = ({ ctx, payload }) =>
        uow.run(ctx, (tx) => {
          const left = Number(payload['left']);
          if (left > 0) tx.enqueue('plan', { left: left - 1 }, { queue: 'plan' });
          return Promise.resolve(ok(undefined));
        });
      await act((tx) => {
        tx.enqueue('plan', { left: 3 }, { queue: 'plan' });
        tx.enqueue('plan', { left: 3 }, { queue: 'plan' });
      });
      expect((await runner({ plan }).runDue()).done).toHaveLength(8);
      expect(await jobs()).toEqual([]);
    });
  });

  describe('that fails', () => {
    it('is tried again after a longer wait each time, up to its bound, and is told of in the log', async () => {
      const said: string[] = [];
      const log = pino({ level: 'warn' }, { write: (line: string) => said.push(line) });
      const failing = runner(
        { plan: () => Promise.reject(new TypeError('Ines Halloway has no phone')) },
        log,
      );
      await act((tx) => tx.enqueue('plan', { secret: 'kept-out' }, { maxAttempts: 3 }));
      const waits: number[] = [];
      for (let attempt = 1; attempt <= 3; attempt += 1) {
        const { failed } = await failing.runDue();
        expect(failed.map(({ job }) => job.attempt)).toEqual([attempt]);
        waits.push((await jobs())[0]?.wait ?? 0);
        await owner.query('update graphile_worker._private_jobs set run_at = now()');
      }
      expect(waits[0]).toBeGreaterThan(1);
      expect(waits[1]).toBeGreaterThan((waits[0] ?? 0) * 2);
      expect((await failing.runDue()).failed).toEqual([]);
      const [job] = await jobs();
      // Outside tenancy there are no words that might be about a customer.
      expect(job).toMatchObject({ attempts: 3, is_available: false, last_error: 'TypeError' });
      const told = said.map((line) => JSON.parse(line) as Record<string, unknown>);
      expect(told.map(({ msg, attempt }) => [msg, attempt])).toEqual([
        ['a job failed and will be tried again', 1],
        ['a job failed and will be tried again', 2],
        ['a job failed and is given up', 3],
      ]);
      expect(told[0]).toMatchObject({ task: 'plan', jobId: job?.id, shopId: A, err: { type: 'TypeError' } });
      expect(said.join()).not.toContain('kept-out');
    });

    it('is kept and counted for a while after it was given up, and then removed, which the log tells', async () => {
      const said: string[] = [];
      const log = pino({ level: 'warn' }, { write: (line: string) => said.push(line) });
      for (const n of [1, 2]) await act((tx) => tx.enqueue('plan', { n }, { key: `${n}`, maxAttempts: 1 }));
      await runner({ plan: () => Promise.reject(new Error('no')) }).runDue();
      await owner.query(
        `update graphile_worker._private_jobs set updated_at = now() - interval '31 days' where payload->>'n' = '1'`,
      );
      const keeper = running({ plan: () => Promise.resolve() }, log);
      await until(() => keeper.givenUp.count === 1);
      expect((await jobs()).map(({ payload }) => payload.n)).toEqual([2]);
      const told = said.map((line) => JSON.parse(line) as Record<string, unknown>);
      expect(told).toMatchObject([
        { msg: 'removed jobs that were given up long ago', task: 'plan', jobs: 1, days: 30 },
        { msg: 'there are jobs that were given up', jobs: 1 },
      ]);
    });

    it('is begun afresh by another of its key, also when it was given up', async () => {
      const failing = runner({ plan: () => Promise.reject(new Error('no')) });
      await act((tx) => tx.enqueue('plan', { n: 1 }, { key: 'shop', maxAttempts: 1 }));
      await failing.runDue();
      await act((tx) => tx.enqueue('plan', { n: 2 }, { key: 'shop' }));
      const { done } = await runner({ plan: () => Promise.resolve() }).runDue();
      expect(done.map(({ payload }) => payload)).toEqual([{ n: 2 }]);
    });
  });

  describe('when a process ends', () => {
    it('is finished first by one that stops, and its signal says so when that takes long', async () => {
      let finished = 0;
      const quick = running({
        plan: async () => {
          await sleep(400);
          finished += 1;
        },
      });
      await act((tx) => tx.enqueue('plan', {}));
      await untilJobs(([job]) => job?.locked_by !== null);
      await quick.stop();
      expect([finished, await jobs()]).toEqual([1, []]);

      const patient = running({
        plan: ({ signal }) => sleep(20_000, undefined, { signal }),
      });
      await act((tx) => tx.enqueue('plan', {}, { queue: 'plan' }));
      await untilJobs(([job]) => job?.locked_by !== null);
      await patient.stop();
      expect(await jobs()).toMatchObject([{ locked_by: null, is_available: true, attempts: 1 }]);
      expect((await jobs())[0]?.wait).toBeLessThanOrEqual(0);
      expect((await runner({ plan: () => Promise.resolve() }).runDue()).done).toHaveLength(1);
    });

    it('is given back by one that stops although it does not listen', async () => {
      let release: () => void = () => undefined;
      const deaf = running({ plan: () => new Promise<void>((resolve) => void (release = resolve)) });
      await act((tx) => tx.enqueue('plan', {}, { queue: 'plan' }));
      await untilJobs(([job]) => job?.locked_by !== null);
      const began = Date.now();
      await deaf.stop();
      expect(Date.now() - began).toBeLessThan(3_000);
      expect(await jobs()).toMatchObject([{ locked_by: null, is_available: true }]);
      release();
      await sleep(100);
      expect(await jobs()).toHaveLength(1);
      expect((await runner({ plan: () => Promise.resolve() }).runDue()).done).toHaveLength(1);
    });

    it('is taken over within seconds when the process was killed, by one that was there and by one that comes', async () => {
      for (const isThere of [true, false]) {
        const first = await process();
        await act((tx) => tx.enqueue('hold', { isThere }, { queue: 'plan' }));
        const { began: id } = await first.line((line) => line['began'] !== undefined);
        if (isThere) await process();
        await sleep(QUEUE_TIMING.lookMs + 500); // the others have looked: the living keep what they have
        expect(children.at(-1)?.lines.filter((line) => line['began'] === id)).toHaveLength(isThere ? 0 : 1);
        first.kill('SIGKILL');
        await first.ended;
        const killed = Date.now();
        if (!isThere) await process();
        const heir = children.at(-1) as Child;
        expect(await heir.line((line) => line['began'] === id)).toMatchObject({ attempt: 2 });
        const took = Date.now() - killed;
        expect(took).toBeLessThan(6_000);
        await heir.end();
        await owner.query('delete from graphile_worker._private_jobs');
        await owner.query(
          'update graphile_worker._private_job_queues set locked_by = null, locked_at = null',
        );
      }
    });

    it('is taken over from a process that froze, which gives way when it goes on', async () => {
      const frozen = await process(HURRIED);
      await act((tx) => tx.enqueue('hold', {}, { queue: 'plan' }));
      const { began: id } = await frozen.line((line) => line['began'] !== undefined);
      const heir = await process(HURRIED);
      frozen.kill('SIGSTOP');
      expect(await heir.line((line) => line['began'] === id)).toMatchObject({ attempt: 2 });
      frozen.kill('SIGCONT');
      expect(await frozen.line((line) => line['aborted'] === id)).toMatchObject({ attempt: 1 });
      expect(await jobs()).toMatchObject([{ id, attempts: 2, is_available: false }]);
      // It is of use again: what the other drops is its own to take.
      heir.kill('SIGKILL');
      expect(await frozen.line((line) => line['began'] === id && line['attempt'] === 3)).toBeDefined();
    });

    it('and the database goes away and comes back, then runners go on', async () => {
      let done = 0;
      running({
        plan: () => {
          done += 1;
          return Promise.resolve();
        },
      });
      await act((tx) => tx.enqueue('plan', {}));
      await until(() => done === 1);
      const server = new pg.Client({ ...database.conn, database: 'postgres' });
      await server.connect();
      const { database: name } = database.conn;
      await server.query(`alter database ${name} allow_connections false`);
      await server.query(
        `select pg_terminate_backend(pid) from pg_stat_activity where datname = $1 and application_name = 'bayledger-jobs'`,
        [name],
      );
      await sleep(1_000);
      await server.query(`alter database ${name} allow_connections true`);
      await server.end();
      await act((tx) => tx.enqueue('plan', {}));
      await until(() => done === 2);
    });

    it('of which only the sign of life broke, stops what it runs and begins again', async () => {
      const attempts: number[] = [];
      let aborted = 0;
      running({
        plan: async ({ attempt, signal }) => {
          attempts.push(attempt);
          if (attempt === 1)
            await sleep(20_000, undefined, { signal }).catch((error: unknown) => {
              aborted += 1;
              throw error;
            });
        },
      });
      await act((tx) => tx.enqueue('plan', {}, { queue: 'plan' }));
      await until(() => attempts.length === 1);
      await owner.query(
        `select pg_terminate_backend(pid) from pg_stat_activity
          where application_name = 'bayledger-jobs' and datname = current_database()`,
      );
      await until(() => attempts.length === 2);
      expect([attempts, aborted]).toEqual([[1, 2], 1]);
      await untilJobs((found) => found.length === 0);
      await act((tx) => tx.enqueue('plan', {}, { queue: 'plan' }));
      await until(() => attempts.length === 3);
    });

    it('frees a queue whose job was removed by a run that went on too long', async () => {
      await act((tx) => tx.enqueue('plan', {}, { queue: 'plan' }));
      await owner.query(
        `update graphile_worker._private_job_queues set locked_by = 'pool-gone', locked_at = now()`,
      );
      let done = 0;
      running({
        plan: () => {
          done += 1;
          return Promise.resolve();
        },
      });
      await until(() => done === 1);
    });
  });
});
