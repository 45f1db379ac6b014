import { ok } from '#libs/kernel';
import { freeReservedPlaces } from '#server/modules/scheduling/index';
import { systemContext } from '#server/platform/context';
import { UnitOfWork } from '#server/platform/database/unit-of-work';
import { FloorBuilder } from '../builders/floor.js';
import { runJobsNow } from '../support/jobs.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

interface Answer {
  readonly status: number;
  readonly body: Record<string, unknown>;
}

const NOW = '2026-03-11T13:00:00Z';
const DESKS = 40;
const caller = { customerName: 'Ines Halloway', phone: '+1 202 555 0111', vehicleWords: 'a grey Corvane' };
const times = <T>(count: number, make: (n: number) => Promise<T>): Promise<T[]> =>
  Promise.all(Array.from({ length: count }, (_, n) => make(n)));
const counted = (answers: readonly Answer[]): Record<number, number> => {
  const counts: Record<number, number> = {};
  for (const { status } of answers) counts[status] = (counts[status] ?? 0) + 1;
  return counts;
};

describe('many at once reserve', () => {
  let shop: ShopUnderTest;
  let floor: FloorBuilder;
  let lift: string;
  beforeAll(async () => {
    shop = await shopUnderTest({ now: NOW });
    floor = new FloorBuilder(shop);
    for (const weekday of [1, 2, 3, 4, 5])
      for (const { staffId } of [shop.technician, shop.secondTechnician])
        await floor.shift(staffId, weekday, 480, 1020);
    lift = await floor.bay();
  }, 60_000);
  beforeEach(() => shop.clock.set(new Date(NOW)));
  afterEach(async () => {
    // The next test finds the whole day free.
    await shop.sql(
      `update reservations set released_at = $1, release_reason = 'given-back' where released_at is null`,
      [NOW],
    );
    await shop.sql('update assignments set cancelled_at = $1 where cancelled_at is null', [NOW]);
  });
  afterAll(async () => {
    await shop.stop();
  });

  const work = [{ title: 'Brakes', hundredths: 100, needsLift: true }];
  const place = (startsAt: string, technician = shop.technician) => ({
    ...{ work: 0, bayId: lift, technicianId: technician.staffId, startsAt },
    endsAt: new Date(Date.parse(startsAt) + 3_600_000).toISOString(),
  });
  const reserve = (startsAt: string, n = 0) =>
    shop.frontDesk.post('/reservations', {
      ...{ weightKg: 1500, work, arrivesAt: startsAt },
      places: [place(startsAt, n % 2 === 0 ? shop.technician : shop.secondTechnician)],
    });
  const live = async (): Promise<number> =>
    (
      await shop.sql(
        'select id from assignments where cancelled_at is null and reservation_operation_id is not null',
      )
    ).length;

  it(`of ${DESKS} desks that reserve one gap one has it, and the others are told who`, async () => {
    const answers: Answer[] = await times(DESKS, async (n) => reserve('2026-03-11T14:00:00Z', n));
    expect(counted(answers)).toEqual({ 201: 1, 409: DESKS - 1 });
    const winner = answers.find(({ status }) => status === 201);
    for (const { body } of answers.filter(({ status }) => status === 409)) {
      expect(body).toMatchObject({
        code: 'bay-taken',
        holder: { reservation: { number: winner?.body['number'], by: 'Wenna' } },
      });
      expect(body['detail']).toMatch(/is reserved until 09:15 by Wenna\. Ask again/);
    }
    expect(await live()).toBe(1);
    expect(await shop.sql('select id from reservations where released_at is null')).toHaveLength(1);
  }, 60_000);

  it('of a reservation and a place by hand exactly one has the lift', async () => {
    const outcomes: string[] = [];
    for (let round = 0; round < 12; round += 1) {
      const startsAt = new Date(
        Date.parse('2026-03-12T12:00:00Z') + (round % 6) * 3_600_000 + Math.floor(round / 6) * 86_400_000,
      ).toISOString();
      const order = await floor.work({ needsLift: true });
      const [held, given]: [Answer, Answer] = await Promise.all([
        reserve(startsAt),
        shop.frontDesk.post('/assignments', {
          ...{ workOrderId: order.workOrderId, bayId: lift, technicianId: shop.secondTechnician.staffId },
          ...{ startsAt, endsAt: place(startsAt).endsAt },
        }),
      ]);
      outcomes.push(`${held.status} ${given.status}`);
      expect(['201 409', '409 201']).toContain(outcomes.at(-1));
      const loser = held.status === 409 ? held : given;
      expect(['bay-taken', 'technician-taken', 'place-not-possible']).toContain(loser.body['code']);
    }
    expect(outcomes).toHaveLength(12);
  }, 60_000);

  it('of taking it and its running out exactly one happens, and the place says which', async () => {
    const uow = shop.server.app.get(UnitOfWork);
    const outcomes = new Set<string>();
    for (let round = 0; round < 24; round += 1) {
      shop.clock.set(new Date(NOW));
      const held = (await reserve('2026-03-13T14:00:00Z').expect(201)).body as { id: string };
      const end = async (): Promise<void> => {
        // Sometimes sooner, sometimes later than the request is read.
        await new Promise((done) => setTimeout(done, (round % 8) * 20));
        shop.clock.passMinutes(15);
        await uow.run(systemContext(shop.shopId, 'test'), async (tx) => {
          await freeReservedPlaces(tx, 'none');
          return ok(undefined);
        });
      };
      const [taken] = await Promise.all([
        shop.frontDesk.post(`/reservations/${held.id}/take`, caller),
        end(),
      ]);
      const [row] = await shop.sql<{ taken: boolean; reason: string | null; places: string }>(
        `select r.taken_at is not null as taken, r.release_reason as reason,
                (select count(*) from assignments a join reservation_operations o on o.id = a.reservation_operation_id
                  where o.reservation_id = r.id and a.cancelled_at is null) as places
           from reservations r where r.id = $1`,
        [held.id],
      );
      if (taken.status === 200) expect(row).toEqual({ taken: true, reason: null, places: '1' });
      else {
        expect([taken.status, taken.body.code]).toEqual([409, 'reservation-over']);
        // Nobody may have ended it yet, when the one looked past it while the other held it.
        await uow.run(systemContext(shop.shopId, 'test'), async (tx) => {
          await freeReservedPlaces(tx, 'none');
          return ok(undefined);
        });
        expect(await live()).toBe(0);
      }
      outcomes.add(String(taken.status));
      if (taken.status === 200) {
        await shop.frontDesk.delete(`/reservations/${held.id}`, undefined, { 'if-match': '*' }).expect(204);
      }
    }
    // Both were seen; else the test looked at one side only.
    expect([...outcomes].sort()).toEqual(['200', '409']);
  }, 90_000);

  it('of 20 who take one reservation one has it, and of a give-back and an extension exactly one is first', async () => {
    const held = (await reserve('2026-03-16T14:00:00Z').expect(201)).body as { id: string };
    const answers: Answer[] = await times(20, async () =>
      shop.frontDesk.post(`/reservations/${held.id}/take`, caller),
    );
    expect(counted(answers)).toEqual({ 200: 1, 409: 19 });
    for (let round = 0; round < 6; round += 1) {
      const next = (await reserve('2026-03-17T14:00:00Z').expect(201)).body as { id: string };
      const [longer, back]: [Answer, Answer] = await Promise.all([
        shop.frontDesk.patch(`/reservations/${next.id}`, { minutes: 30 }, 1),
        shop.frontDesk.delete(`/reservations/${next.id}`, undefined, { 'if-match': '"1"' }),
      ]);
      expect(['200 412', '409 204']).toContain(`${longer.status} ${back.status}`);
      if (back.status !== 204)
        await shop.frontDesk.delete(`/reservations/${next.id}`, undefined, { 'if-match': '*' }).expect(204);
    }
  }, 60_000);

  it('the job gives the place back when the time is over, and leaves what was taken or extended', async () => {
    const states = async (): Promise<string[]> =>
      (
        await shop.sql<{ state: string }>(
          `select coalesce(release_reason, case when taken_at is null then 'held' else 'taken' end) as state
           from reservations where made_at = $1 and id = any ($2) order by number`,
          [shop.clock.now(), ids],
        )
      ).map(({ state }) => state);
    const ids: string[] = [];
    for (const day of ['18', '19', '20'])
      ids.push(((await reserve(`2026-03-${day}T14:00:00Z`).expect(201)).body as { id: string }).id);
    await shop.frontDesk.post(`/reservations/${ids[1]}/take`, caller).expect(200);
    await shop.frontDesk.patch(`/reservations/${ids[2]}`, { minutes: 60 }, 1).expect(200);
    expect(await states()).toEqual(['held', 'taken', 'held']);
    const made = shop.clock.now();
    shop.clock.passMinutes(16);
    await shop.sql(`update graphile_worker._private_jobs set run_at = now()`);
    await runJobsNow(shop);
    shop.clock.set(made);
    expect(await states()).toEqual(['expired', 'taken', 'held']);
  }, 60_000);
});
