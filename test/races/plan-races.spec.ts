import pg from 'pg';
import { checkPlan, keptAssignments } from '#libs/plan';
import type { Config } from '#server/platform/config';
import { CONFIG } from '#server/platform/tokens';
import { TwoServers } from '../builders/two-servers.js';
import { WEIGHTS } from '../builders/yard.js';
import type { MadeWork } from '../builders/floor.js';
import type { Person } from '../support/shop-under-test.js';

const HOUR = 3_600_000;
const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms));

/** Jobs that may begin now and have not, and those that run. */
const PENDING = `select count(*) filter (where j.locked_at is null and j.run_at <= now() + interval '20 seconds' and t.identifier = 'plan')::int as waiting,
    count(*) filter (where j.locked_at is not null)::int as running
  from graphile_worker._private_jobs j join graphile_worker._private_tasks t on t.id = j.task_id
 where t.identifier in ('plan', 'plan-look', 'plan-improve')`;

describe('many events and two servers that plan the same shop', () => {
  let two: TwoServers;
  let people: Person[];
  let bays: string[];
  let works: MadeWork[];
  beforeAll(async () => {
    two = await TwoServers.open();
    people = [];
    bays = [];
    works = [];
    for (let n = 0; n < 6; n += 1) {
      const staffId = await two.person(`Person ${n}`);
      const [first] = [two.shop.technician];
      people.push({ ...first, staffId, token: await tokenOf(staffId) });
    }
    const inspectedOn = new Date().toISOString().slice(0, 10);
    for (let n = 0; n < 4; n += 1) bays.push(await two.floor.bay({ inspectedOn }));
    await two.start();
    await two.shop.manager
      .put('/plan/settings', { mode: 'apply', weights: WEIGHTS, frozenMinutes: 0, horizonDays: 14 }, 0)
      .expect(200);
    for (let n = 0; n < 24; n += 1) {
      const promisedAt = new Date(Date.now() + (4 + (n % 9) * 3) * HOUR).toISOString();
      works.push(
        await two.floor.work(
          { hundredths: 60 + ((n * 37) % 140), needsLift: n % 2 === 0 },
          await two.floor.repairOrder({ promisedAt }),
        ),
      );
    }
    await settles();
  }, 180_000);
  afterAll(async () => {
    await two.stop();
  }, 60_000);

  async function tokenOf(staffId: string): Promise<string> {
    const { AccessTokens } = await import('#server/platform/http/access-token');
    return new AccessTokens(two.shop.server.app.get<Config>(CONFIG).jwtSecret).issue(two.shop.shopId, {
      ...{ kind: 'staff', staffId, displayName: staffId, roles: ['technician'], sessionId: staffId },
    });
  }

  /** Until no run is on its way. */
  async function settles(limitMs = 30_000): Promise<void> {
    const until = Date.now() + limitMs;
    while (Date.now() < until) {
      await pause(40);
      const [row] = await two.shop.sql<{ waiting: number; running: number }>(PENDING);
      if (row?.waiting === 0 && row.running === 0) return;
    }
    throw new Error('the plan did not settle');
  }

  interface StoredPlace {
    readonly id: string;
    readonly workOrderId: string;
    readonly bayId: string;
    readonly technicianId: string;
    readonly startsAt: Date;
    readonly endsAt: Date;
    readonly version: number;
    readonly isPinned: boolean;
  }
  const placesNow = (): Promise<StoredPlace[]> =>
    two.shop.sql<StoredPlace>(
      `select id, work_order_id as "workOrderId", bay_id as "bayId", technician_id as "technicianId", starts_at as "startsAt",
              ends_at as "endsAt", version, is_pinned as "isPinned"
         from assignments a where shop_id = $1 and cancelled_at is null
          and not exists (select 1 from clock_entries e where e.work_order_id = a.work_order_id and e.ended_at is null)
        order by starts_at`,
      [two.shop.shopId],
    );

  /** Of new work, where the plan put it. */
  async function freshPlace(): Promise<StoredPlace> {
    two.now();
    const { workOrderId } = await two.floor.work({ hundredths: 100, needsLift: true });
    await settles();
    const place = (await placesNow()).find((one) => one.workOrderId === workOrderId);
    if (place === undefined) throw new Error('the plan gave it no place');
    return place;
  }

  /** What is stored breaks no rule of the planner's own checker. */
  async function expectSoundPlan(): Promise<void> {
    two.now();
    const { problem } = await two.floor.load();
    const kept = keptAssignments(problem);
    const placed = new Set(kept.map(({ operation }) => operation));
    const unplaced = problem.repairOrders.flatMap(({ operations }) =>
      operations.flatMap(({ id }) => (placed.has(id) ? [] : [{ operation: id, why: '' }])),
    );
    // A start that has just passed is looked at ten minutes later.
    const broken = checkPlan({ ...problem, now: problem.now - 10 }, { assignments: kept, unplaced });
    expect(broken).toEqual([]);
    expect(unplaced).toEqual([]);
  }

  it('come to one plan that breaks no rule, by one run at a time, and nobody is told of an error', async () => {
    const watch = { most: 0, looks: 0, isOver: false };
    const watching = (async () => {
      while (!watch.isOver) {
        const [row] = await two.shop.sql<{ running: number }>(PENDING);
        watch.most = Math.max(watch.most, row?.running ?? 0);
        watch.looks += 1;
        await pause(3);
      }
    })();
    const places = await placesNow();
    const act = async (n: number): Promise<{ status: number; body: unknown }> => {
      const [side, person] = [n % 2, people[n % people.length] as Person];
      const work = works[(n * 7) % works.length] as MadeWork;
      const place = places.find(({ workOrderId }) => workOrderId === work.workOrderId);
      const desk = two.at(side, two.shop.frontDesk);
      switch (n % 5) {
        case 0:
          return two.at(side, person).post(`/work-orders/${work.workOrderId}/claims`);
        case 1:
          return desk.patch(
            `/assignments/${place?.id}`,
            { startsAt: later(20 + n), endsAt: later(21 + n), bayId: bays[n % bays.length] },
            '*',
          );
        case 2:
          return two.at(side, person).post('/clock/on', { workOrderId: work.workOrderId });
        case 3:
          return two.at(side, two.shop.manager).post(`/technicians/${people[n % 3]?.staffId}/absences`, {
            ...{ startsAt: later(30 + n), endsAt: later(31 + n), reason: 'a course' },
          });
        default:
          return desk.delete(`/assignments/${place?.id}`, undefined, { 'if-match': '*' });
      }
    };
    const later = (hours: number): string => new Date(Date.now() + hours * HOUR).toISOString();
    const answers = await Promise.all(
      Array.from({ length: 50 }, async (_, n) => {
        await pause(n * 80);
        return act(n);
      }),
    );
    await settles();
    watch.isOver = true;
    await watching;
    const counts: Record<number, number> = {};
    for (const { status } of answers) counts[status] = (counts[status] ?? 0) + 1;
    const strange = answers.filter(({ status }) => ![200, 201, 204, 404, 409].includes(status));
    expect(strange.map(({ status, body }) => [status, body])).toEqual([]);
    expect((counts[200] ?? 0) + (counts[201] ?? 0) + (counts[204] ?? 0)).toBeGreaterThan(25);
    expect(watch.looks).toBeGreaterThan(50);
    expect(watch.most).toBe(1);
    const runs = await two.shop.sql<{ outcome: string; count: number }>(
      'select outcome, count(*)::int as count from plan_runs where shop_id = $1 group by outcome',
      [two.shop.shopId],
    );
    console.log(`50 events: answers ${JSON.stringify(counts)}, runs ${JSON.stringify(runs)}`);
    expect(runs.filter(({ outcome }) => outcome === 'failed')).toEqual([]);
    await expectSoundPlan();
  }, 120_000);

  it('a move by hand and a run at the same moment: either wins wholly', async () => {
    const outcomes: Record<string, number> = {};
    for (let round = 0; round < 15; round += 1) {
      const desk = two.at(round % 2, two.shop.frontDesk);
      await two.shop.sql('delete from bay_closures');
      const target = await freshPlace();
      const from = new Date(Date.now() + (100 + round * 3) * HOUR).toISOString();
      const to = new Date(Date.parse(from) + HOUR).toISOString();
      // The bay that it stands in goes out, so that a run has to move it while a person does.
      const closing = two.at((round + 1) % 2, two.shop.manager).post(`/bays/${target.bayId}/closures`, {
        ...{ startsAt: target.startsAt.toISOString(), endsAt: target.endsAt.toISOString(), reason: 'a leak' },
      });
      const moving = pause(100 + ((round * 37) % 160)).then(() =>
        desk.patch(
          `/assignments/${target.id}`,
          { startsAt: from, endsAt: to, bayId: bays[round % bays.length] },
          target.version,
        ),
      );
      const [closed, moved] = await Promise.all([closing, moving]);
      expect(closed.status).toBe(201);
      expect([200, 409, 412]).toContain(moved.status);
      await settles();
      const after = (await placesNow()).find(({ id }) => id === target.id);
      const told = moved.status === 200 ? 'moved' : (moved.body as { code: string }).code;
      outcomes[told] = (outcomes[told] ?? 0) + 1;
      if (moved.status === 200)
        expect(after).toMatchObject({ startsAt: new Date(from), endsAt: new Date(to), isPinned: true });
      else expect(after?.isPinned ?? false).toBe(false);
    }
    console.log(`15 moves by hand against runs: ${JSON.stringify(outcomes)}`);
    await expectSoundPlan();
  }, 120_000);

  it('a process that is killed between finding a plan and storing it leaves it to the other, within seconds', async () => {
    const { databaseUrl } = two.shop.server.app.get<Config>(CONFIG);
    const holder = new pg.Client({ connectionString: databaseUrl ?? '' });
    holder.on('error', () => undefined);
    await holder.connect();
    await two.shop.sql('delete from bay_closures');
    const target = await freshPlace();
    try {
      // Whoever is about to store what it found waits here.
      await holder.query(`select pg_advisory_lock(hashtextextended('plan:' || $1, 0))`, [two.shop.shopId]);
      await two.shop.manager
        .post(`/bays/${target.bayId}/closures`, {
          ...{
            startsAt: target.startsAt.toISOString(),
            endsAt: target.endsAt.toISOString(),
            reason: 'a fuse',
          },
        })
        .expect(201);
      const login = await waitingLogin();
      const at = two.logins.indexOf(login);
      await two.processes[at]?.end('SIGKILL');
      const killed = performance.now();
      await holder.query(`select pg_advisory_unlock(hashtextextended('plan:' || $1, 0))`, [two.shop.shopId]);
      const until = Date.now() + 20_000;
      let now: StoredPlace | undefined = target;
      while (
        now !== undefined &&
        now.bayId === target.bayId &&
        now.startsAt.getTime() === target.startsAt.getTime()
      ) {
        if (Date.now() > until) throw new Error('nobody went on');
        await pause(20);
        now = (await placesNow()).find(({ id }) => id === target.id);
      }
      console.log(`the other process went on after ${Math.round(performance.now() - killed)} ms`);
      await settles();
      await expectSoundPlan();
      const [run] = await two.shop.sql<{ outcome: string }>(
        `select outcome from plan_runs where shop_id = $1 order by id desc limit 1`,
        [two.shop.shopId],
      );
      expect(run?.outcome).toBe('applied');
    } finally {
      await holder.end();
    }
  }, 60_000);

  async function waitingLogin(): Promise<string> {
    const until = Date.now() + 8_000;
    while (Date.now() < until) {
      await pause(20);
      const [row] = await two.shop.sql<{ login: string }>(
        `select a.usename as login from pg_locks l join pg_stat_activity a on a.pid = l.pid
          where l.locktype = 'advisory' and not l.granted and a.datname = current_database()`,
      );
      if (row) return row.login;
    }
    throw new Error('no run came to the point of storing');
  }
});
