import { randomUUID } from 'node:crypto';
import { FloorBuilder } from '../builders/floor.js';
import { runJobsNow } from '../support/jobs.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

interface Figure {
  readonly figure: string;
  readonly hundredths: number;
}

interface Arrival {
  readonly perDayThousandths: number;
}

const valueOf = (figures: readonly Figure[], name: string): number =>
  figures.find(({ figure }) => figure === name)?.hundredths ?? NaN;

describe('the manager asks what would be different with one more technician, lift or open day', () => {
  let shop: ShopUnderTest;
  let floor: FloorBuilder;
  let lift: string;
  beforeAll(async () => {
    shop = await shopUnderTest({ now: '2026-03-11T12:00:00Z' });
    floor = new FloorBuilder(shop);
    lift = await floor.bay();
    await floor.bay();
    for (const weekday of [1, 2, 3, 4, 5])
      await floor.shift(shop.technician.staffId, weekday, 480, 960, [720, 750]);
    await shop.sql(`update staff set is_active = false where id = $1`, [shop.secondTechnician.staffId]);
  });
  afterAll(async () => {
    await shop.stop();
  });
  const ask = (changes: object[], more: object = { weeks: 4, years: 2 }) =>
    shop.manager.post('/what-ifs', { alternatives: [{ changes }], ...more });
  const moreLifts = () => ({ kind: 'bay', id: lift });

  it('is told that there is no work to replay while the shop has neither cars nor operations', async () => {
    const { body } = await ask([moreLifts()]).expect(422);
    expect(body.detail).toContain('no work to replay');
  });

  it('replays years like the last 90 days, in the background, and compares', async () => {
    const began = new Date('2026-02-02T13:00:00Z').getTime();
    for (let k = 0; k < 24; k++) {
      shop.clock.set(new Date(began + Math.floor(k / 4) * 7 * 86_400_000 + (k % 4) * 86_400_000));
      const order = await floor.repairOrder();
      await floor.work({ needsLift: true, hundredths: 450 }, order);
      await floor.work({ needsLift: true, hundredths: 300 }, order);
    }
    shop.clock.set(new Date('2026-03-16T12:00:00Z'));
    const asked = await shop.manager
      .post('/what-ifs', {
        alternatives: [
          { changes: [{ kind: 'technician', id: shop.technician.staffId }] },
          { changes: [moreLifts()] },
          { changes: [{ kind: 'day-open', weekday: 6, fromMinute: 480, toMinute: 780 }] },
        ],
        weeks: 8,
        years: 3,
      })
      .expect(201);
    expect(asked.body).toMatchObject({ state: 'waiting', weeks: 8, years: 3, base: [] });
    expect(asked.body.asked).toEqual([
      'One more technician like Bram',
      `One more bay like ${await nameOfBay(lift)}`,
      'Open on Saturday 08:00 to 13:00',
    ]);
    await runJobsNow(shop);
    const { body } = await shop.manager.get(`/what-ifs/${asked.body.id}`).expect(200);
    expect(body).toMatchObject({ state: 'answered', failedReason: null, basis: { source: 'history' } });
    expect(body.basis.repairOrders).toBe(24);
    expect(body.basis.assumed.join(' ')).toContain('drawn again by chance');
    const [technician, bay, saturday] = body.alternatives;
    // Four cars a week with seven and a half hours each are just under what one technician can do.
    expect(valueOf(body.base, 'technicianUsedPercent')).toBeGreaterThan(6000);
    expect(valueOf(technician.figures, 'technicianUsedPercent')).toBeLessThan(
      valueOf(body.base, 'technicianUsedPercent'),
    );
    expect(valueOf(technician.differences, 'lateHoursPerWeek')).toBeLessThanOrEqual(0);
    expect(valueOf(bay.differences, 'liftIdleHoursPerWeek')).toBeGreaterThan(0);
    expect(valueOf(saturday.differences, 'lateHoursPerWeek')).toBeLessThanOrEqual(0);
    for (const { low, hundredths, high } of technician.differences) {
      expect(low).toBeLessThanOrEqual(hundredths);
      expect(high).toBeGreaterThanOrEqual(hundredths);
    }
    const list = await shop.manager.get('/what-ifs').expect(200);
    expect(list.body.items[0]).toMatchObject({ id: asked.body.id, state: 'answered' });
  });

  it('answers once, also when a process that had begun was killed and when the job runs twice', async () => {
    const { body } = await ask([moreLifts()]).expect(201);
    await shop.sql('update what_ifs set started_at = $2 where id = $1', [body.id, shop.clock.now()]);
    expect((await shop.manager.get(`/what-ifs/${body.id}`).expect(200)).body.state).toBe('running');
    await runJobsNow(shop);
    const first = await shop.manager.get(`/what-ifs/${body.id}`).expect(200);
    await shop.sql(
      `select graphile_worker.add_job('what-if', json_build_object('whatIfId', $1::text, 'shopId', $2::text))`,
      [body.id, shop.shopId],
    );
    shop.clock.passMinutes(5);
    await runJobsNow(shop);
    expect((await shop.manager.get(`/what-ifs/${body.id}`).expect(200)).body).toEqual(first.body);
    await expect(
      shop.sql(`update what_ifs set failed_reason = 'x', answer = null where id = $1`, [body.id]),
    ).rejects.toMatchObject({ constraint: 'what_ifs_answered_once' });
  });

  it('names each thing that cannot be', async () => {
    const fields = async (body: object) =>
      ((await shop.manager.post('/what-ifs', body).expect(422)).body.fields as { pointer: string }[]).map(
        ({ pointer }) => pointer,
      );
    expect(await fields({ alternatives: [] })).toEqual(['/alternatives']);
    expect(
      await fields({
        alternatives: [
          {
            changes: [
              { kind: 'bay', id: randomUUID() },
              { kind: 'day-open', fromMinute: 600, toMinute: 540 },
            ],
          },
          { changes: [] },
        ],
      }),
    ).toEqual([
      '/alternatives/0/changes/0/id',
      '/alternatives/0/changes/1/weekday',
      '/alternatives/1/changes',
    ]);
    expect(
      await fields({
        alternatives: [{ changes: [{ kind: 'day-open', weekday: 6, fromMinute: 600, toMinute: 540 }] }],
      }),
    ).toEqual(['/alternatives/0/changes/0/toMinute']);
    expect(
      await fields({
        alternatives: [
          {
            changes: [
              { kind: 'bay-away', id: lift },
              { kind: 'bay-away', id: lift },
            ],
          },
        ],
      }),
    ).toEqual(['/alternatives/0/changes']);
    expect(
      await fields({
        alternatives: Array.from({ length: 4 }, () => ({ changes: [moreLifts()] })),
        weeks: 52,
        years: 12,
      }),
    ).toEqual(['/weeks']);
  });

  it('lets no more cars come by the catalogue than the scarcest bay or certificate can take', async () => {
    const own = await shop.addShop('alignment-only');
    const mine = new FloorBuilder(shop, own.shopId);
    const manager = await own.person('manager');
    const [first, second] = [await own.person('technician'), await own.person('technician')];
    for (const { staffId } of [first, second])
      for (const weekday of [1, 2, 3, 4, 5]) await mine.shift(staffId, weekday, 480, 960);
    for (const kind of ['lift', 'lift', 'lift', 'alignment']) await mine.bay({ kind });
    const operation = async (code: string, hundredths: number, kinds: string[], skills: string[]) => {
      const [step, id] = [randomUUID(), randomUUID()];
      await shop.sql(
        `insert into steps (shop_id, id, code, name, hundredths, version) values ($1, $2, $3, $3, $4, 1)`,
        [own.shopId, step, code, hundredths],
      );
      await shop.sql(
        `insert into operations (shop_id, id, code, name, needs_lift, bay_kinds, skills, cautions, is_active, version)
         values ($1, $2, $3, $3, true, $4, $5, array[]::text[], true, 1)`,
        [own.shopId, id, code, kinds, skills],
      );
      await shop.sql(
        `insert into operation_steps (shop_id, operation_id, step_id, at, sequence) values ($1, $2, $3, 'vehicle', 1)`,
        [own.shopId, id, step],
      );
    };
    await operation('BRAKES', 100, ['lift'], []);
    await operation('ALIGN', 300, ['alignment'], []);
    const perWeek = async (): Promise<number> => {
      const asked = await manager
        .post('/what-ifs', {
          alternatives: [{ changes: [{ kind: 'technician', id: first.staffId }] }],
          ...{ weeks: 4, years: 2 },
        })
        .expect(201);
      const [{ question }] = (await shop.sql<{ question: { year: { arrivals: Arrival[] } } }>(
        'select question from what_ifs where id = $1',
        [asked.body.id],
      )) as [{ question: { year: { arrivals: Arrival[] } } }];
      return question.year.arrivals.reduce((sum, { perDayThousandths }) => sum + perDayThousandths, 0) / 1000;
    };
    const [{ open }] = (await shop.sql<{ open: number }>(
      'select day_ends_minute - day_starts_minute as open from shops where shop_id = $1',
      [own.shopId],
    )) as [{ open: number }];
    // Half of the cars want three hours in the only bay of its kind; two people have 2 × 480 minutes a day for two hours a car.
    const [people, alignment] = [(2 * 5 * 480) / 120, (5 * open) / 90];
    expect(alignment).toBeLessThan(people);
    expect(await perWeek()).toBeCloseTo(0.8 * alignment, 1);
    // A certificate that one of them holds is scarcer still.
    await operation('GAS', 600, [], ['refrigerant']);
    await mine.skill(first.staffId, 'refrigerant');
    expect(await perWeek()).toBeCloseTo(0.8 * 3 * ((5 * 480) / 360), 1);
  });

  it('knows the closed days and absences that are entered, from the Monday that comes', async () => {
    const { staffId } = shop.technician;
    shop.clock.set(new Date('2026-03-19T12:00:00Z'));
    for (const day of ['2026-03-20', '2026-03-25', '2026-04-03'])
      await shop.manager.post('/closed-days', { day, name: 'Stock taking' }).expect(201);
    const away = { startsAt: '2026-03-22T08:00:00-04:00', endsAt: '2026-03-24T12:00:00-04:00' };
    await shop.manager.post(`/technicians/${staffId}/absences`, away).expect(201);
    const { body } = await ask([moreLifts()]).expect(201);
    expect(body.basis.assumed).toContain(
      'The years begin on Monday, 2026-03-23, with what is entered from then on: 2 closed days, 1 absence. Nothing is out of service.',
    );
    const [{ question }] = (await shop.sql('select question from what_ifs where id = $1', [body.id])) as [
      {
        question: {
          year: { closedDays: number[] };
          floor: { technicians: { id: string; away: number[][] }[] };
        };
      },
    ];
    expect(question.year.closedDays).toEqual([2, 11]);
    expect(question.floor.technicians.find(({ id }) => id === staffId)?.away).toEqual([
      [-16 * 60, 1440 + 12 * 60],
    ]);
  });

  it('is not for the desk or the floor, and no other shop sees it', async () => {
    for (const person of [shop.frontDesk, shop.technician]) {
      await person.get('/what-ifs').expect(403);
      await person.post('/what-ifs', { alternatives: [{ changes: [moreLifts()] }] }).expect(403);
    }
    const { body } = await shop.manager.get('/what-ifs').expect(200);
    const other = await (await shop.addShop('other-yard')).person('manager');
    await other.get(`/what-ifs/${body.items[0].id}`).expect(404);
    expect((await other.get('/what-ifs').expect(200)).body.items).toEqual([]);
  });

  const nameOfBay = async (id: string): Promise<string> =>
    (await shop.sql<{ name: string }>('select name from bays where id = $1', [id]))[0]?.name ?? '';
});
