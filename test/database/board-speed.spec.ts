import { board } from '#server/modules/board/index';
import { systemContext } from '#server/platform/context';
import { UnitOfWork } from '#server/platform/database/unit-of-work';
import { FloorBuilder } from '../builders/floor.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

/**
 * With 200 open work orders and years of done ones behind them the board takes some 35 ms of processor time, server and
 * database together, and is meant to stay under 50. The test allows three times that, since other specs share the
 * machine; reading the history through, as one draft did, costs more than the difference.
 */
const LIMIT_MS = 150;

describe('the board of a full shop', () => {
  let shop: ShopUnderTest;
  beforeAll(async () => {
    shop = await shopUnderTest();
    await fill(shop);
  }, 120_000);
  afterAll(async () => {
    await shop.stop();
  });

  it(`is gathered in less than ${LIMIT_MS} ms with 200 open work orders`, async () => {
    const uow = shop.server.app.get(UnitOfWork);
    const took: number[] = [];
    for (let round = 0; round < 60; round += 1) {
      const began = performance.now();
      const body = await uow.read(systemContext(shop.shopId, 'test'), (tx) => board(tx, undefined));
      took.push(performance.now() - began);
      expect(body.tickets).toHaveLength(200);
    }
    took.sort((a, b) => a - b);
    const began = performance.now();
    await shop.frontDesk.get('/board').expect(200);
    const overHttp = performance.now() - began;
    console.log(
      `board: fastest ${ms(took[0])}, median ${ms(took[30])}; once over HTTP, compressed and read, ${ms(overHttp)}`,
    );
    // The fastest of sixty says most about the work itself and least about what else the machine is doing.
    expect(took[0]).toBeLessThan(LIMIT_MS);
  });
});

const ms = (time: number | undefined): string => `${(time ?? 0).toFixed(1)} ms`;

async function fill(shop: ShopUnderTest): Promise<void> {
  const floor = new FloorBuilder(shop);
  const tools = [await floor.tool(2), await floor.tool(1)];
  for (let n = 0; n < 10; n += 1) await floor.bay({ kind: n < 6 ? 'lift' : 'flat' });
  const people = [];
  for (let n = 0; n < 12; n += 1) people.push(await shop.addPerson('technician', `Person ${n}`));
  for (const { staffId } of people) await floor.skill(staffId, 'brakes');
  for (let n = 0; n < 40; n += 1) {
    const order = await floor.repairOrder();
    for (let line = 0; line < 5; line += 1)
      await floor.work(
        {
          needsLift: line % 2 === 0,
          skills: ['brakes'],
          cautions: ['WHEEL-01'],
          toolIds: line === 0 ? tools : [],
          items: [{}, { kind: 'sublet' }].slice(0, line % 3) as { kind?: 'sublet' }[],
        },
        order,
      );
  }
  await history(shop, 20_000);
  await shop.sql('analyze');
}

/** Copies of the first work order, long done and checked, each with two clock entries. */
async function history(shop: ShopUnderTest, count: number): Promise<void> {
  await shop.sql(
    `with line as (select l.* from lines l join work_orders w on w.shop_id = l.shop_id and w.line_id = l.id order by w.number limit 1),
     old as (
       insert into work_orders (shop_id, id, number, repair_order_id, line_id, decision_id, decision_answer, title, book_hundredths,
         needs_lift, bay_kinds, skills, cautions, released_at, finished_at, finished_by, withdrawn_at, version)
       select w.shop_id, gen_random_uuid(), 1000 + n, w.repair_order_id, w.line_id, w.decision_id, 'approved', w.title, 100, false,
              '{}', '{}', '{}', now() - interval '1 year', null, null, now(), 1
         from line join work_orders w on w.line_id = line.id, generate_series(1, $1) n
       returning shop_id, id, number)
     insert into clock_entries (shop_id, id, technician_id, kind, work_order_id, started_at, ended_at, end_kind, recorded_by)
     select old.shop_id, gen_random_uuid(), $2, 'work', old.id, timestamptz '2023-01-01' + old.number * interval '1 hour' + half * interval '30 min',
            timestamptz '2023-01-01' + old.number * interval '1 hour' + half * interval '30 min' + interval '20 min', 'off', $2
       from old, generate_series(0, 1) half`,
    [count, shop.technician.staffId],
  );
}
