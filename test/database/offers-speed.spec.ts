import { plan } from '#libs/plan';
import { loadShopPlan, placesOf } from '#server/modules/planning/index';
import { ok } from '#libs/kernel';
import { systemContext } from '#server/platform/context';
import { UnitOfWork } from '#server/platform/database/unit-of-work';
import { newId } from '#server/platform/ids';
import { FloorBuilder } from '../builders/floor.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

/**
 * Somebody waits on the phone, so an answer is meant to come within half a second. Processor time of the server is what is
 * asserted, since other specs share the machine: some 140 ms between what is planned, 260 ms where others may move, 80 ms to
 * reserve; what the database adds is in the times on the clock that are told beside it.
 */
const LIMIT_MS = 500;
const ROUNDS = 12;

interface Took {
  readonly wall: number[];
  readonly processor: number[];
}

describe('offers of a full shop', () => {
  let shop: ShopUnderTest;
  beforeAll(async () => {
    shop = await shopUnderTest({ now: '2026-03-11T12:30:00Z' });
    await fill(shop);
  }, 240_000);
  afterAll(async () => {
    await shop.stop();
  });

  const work = [{ title: 'Brakes', hundredths: 180, needsLift: true }];
  const timed = async <T>(took: Took, act: () => Promise<T>): Promise<T> => {
    const [began, used] = [performance.now(), process.cpuUsage()];
    const answer = await act();
    const { user, system } = process.cpuUsage(used);
    took.wall.push(performance.now() - began);
    took.processor.push((user + system) / 1000);
    return answer;
  };
  const took = (): Took => ({ wall: [], processor: [] });
  const ask = async (spent: Took, question: object) =>
    (await timed(spent, async () => shop.frontDesk.post('/plan/offers', question).expect(200))).body;

  it(`come in less than ${LIMIT_MS} ms at 60 repair orders with 220 work orders, moving others or not`, async () => {
    const [between, moving, holding] = [took(), took(), took()];
    for (let round = 0; round < ROUNDS; round += 1) {
      const question = { weightKg: 1300 + round, work };
      await ask(moving, { ...question, mayMove: true });
      const { offers } = await ask(between, question);
      expect(offers.length).toBeGreaterThan(0);
      const places = offers[0].places.map((place: Record<string, unknown>) => ({
        ...{ work: place['work'], bayId: place['bayId'], technicianId: place['technicianId'] },
        ...{ startsAt: place['startsAt'], endsAt: place['endsAt'] },
      }));
      const request = { ...question, arrivesAt: offers[0].arrivesAt, places };
      const made = await timed(holding, async () =>
        shop.frontDesk.post('/reservations', request).expect(201),
      );
      await shop.frontDesk
        .delete(`/reservations/${made.body.id as string}`, undefined, { 'if-match': '"1"' })
        .expect(204);
    }
    console.log(
      `offers between what is planned: ${told(between)}\noffers that move others: ${told(moving)}\nreserving: ${told(holding)}`,
    );
    for (const spent of [between, moving, holding]) expect(median(spent.processor)).toBeLessThan(LIMIT_MS);
  }, 240_000);
});

const median = (times: readonly number[]): number =>
  [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? 0;
const told = ({ wall, processor }: Took): string =>
  `fastest ${Math.min(...wall).toFixed(0)} ms, median ${median(wall).toFixed(0)} ms; processor time of the server, median ${median(processor).toFixed(0)} ms`;

/** Eight lifts, ten technicians, 60 repair orders, and a plan for all of their work. */
async function fill(shop: ShopUnderTest): Promise<void> {
  const floor = new FloorBuilder(shop);
  const tools = [await floor.tool(1), await floor.tool(2)];
  for (let n = 0; n < 8; n += 1) await floor.bay({ capacityKg: n % 2 === 0 ? 3500 : 2500 });
  for (let n = 0; n < 8; n += 1) {
    const { staffId } = await shop.addPerson('technician', `Person ${n}`);
    await shifts(floor, staffId);
    if (n % 2 === 0) await floor.skill(staffId, 'brakes');
  }
  for (const { staffId } of [shop.technician, shop.secondTechnician]) await shifts(floor, staffId);
  for (let n = 0; n < 60; n += 1) {
    const order = await floor.repairOrder({
      promisedAt: new Date(Date.parse('2026-03-12T21:00:00Z') + (n % 8) * 86_400_000).toISOString(),
    });
    for (let line = 0; line < (n % 3 === 0 ? 3 : 4); line += 1)
      await floor.work(
        {
          ...{ needsLift: line % 2 === 0, hundredths: 60 + ((n * 7 + line * 13) % 10) * 25 },
          ...{ skills: line === 1 ? ['brakes'] : [], toolIds: line === 2 ? [tools[n % 2] ?? ''] : [] },
        },
        order,
      );
  }
  await store(shop);
  await shop.sql('analyze');
}

async function shifts(floor: FloorBuilder, technicianId: string): Promise<void> {
  for (const weekday of [1, 2, 3, 4, 5]) await floor.shift(technicianId, weekday, 480, 1020, [720, 750]);
}

async function store(shop: ShopUnderTest): Promise<void> {
  const uow = shop.server.app.get(UnitOfWork);
  const seen = await uow.read(systemContext(shop.shopId, 'test'), async (tx) => ok(await loadShopPlan(tx)));
  const made = plan(seen.problem, { timeLimitMs: 1500, now: () => performance.now(), seed: 1 });
  if (!made.ok) throw new Error(made.fault.detail);
  expect(made.value.unplaced).toEqual([]);
  for (const place of placesOf(seen, made.value.assignments)) {
    const id = newId();
    const when = [place.startsAt, place.endsAt];
    await shop.sql(
      `insert into assignments (shop_id, id, work_order_id, bay_id, technician_id, starts_at, ends_at, bay_until, is_pinned,
         made_by, made_at, version) values ($1, $2, $3, $4, $5, $6, $7, $8, false, $9, $6, 1)`,
      [
        ...[shop.shopId, id, place.workOrderId, place.bayId, place.technicianId, ...when, place.bayUntil],
        shop.frontDesk.staffId,
      ],
    );
    for (const { toolId, unit } of place.tools)
      await shop.sql(
        `insert into assignment_tools (shop_id, assignment_id, tool_id, unit, starts_at, ends_at)
         values ($1, $2, $3, $4, $5, $6)`,
        [shop.shopId, id, toolId, unit, ...when],
      );
  }
}
