import { checkPlan, explainPlan, keptAssignments, replan } from '#libs/plan';
import { placesOf } from '#server/modules/planning/index';
import { PlanShopBuilder } from '../builders/plan-shop.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

/**
 * A problem of 220 work orders is loaded in some 25 ms of processor time, server and database together, and is meant to
 * stay under 60. The test allows three times that, since other specs share the machine.
 */
const LIMIT_MS = 180;
/** Some 8 ms of processor time, and meant to stay under 50. */
const EXPLAIN_LIMIT_MS = 50;

describe('the plan of a full shop', () => {
  let shop: ShopUnderTest;
  let floor: PlanShopBuilder;
  beforeAll(async () => {
    shop = await shopUnderTest();
    floor = new PlanShopBuilder(shop);
    await floor.fullFloor(220);
    await shop.sql('analyze');
  }, 120_000);
  afterAll(async () => {
    await shop.stop();
  });

  it(`is loaded as a problem in less than ${LIMIT_MS} ms with 220 open work orders`, async () => {
    const took: number[] = [];
    for (let round = 0; round < 40; round += 1) {
      const began = performance.now();
      const { problem } = await floor.load();
      took.push(performance.now() - began);
      expect(problem.repairOrders.flatMap(({ operations }) => operations)).toHaveLength(220);
    }
    took.sort((a, b) => a - b);
    console.log(`plan problem: fastest ${ms(took[0])}, median ${ms(took[20])}`);
    expect(took[0]).toBeLessThan(LIMIT_MS);
  });

  it('is a problem that the planner solves without breaking a rule', async () => {
    const loaded = await floor.load();
    const made = replan(loaded.problem, { timeLimitMs: 2000, now: () => performance.now(), seed: 1 });
    if (!made.ok) throw new Error(made.fault.detail);
    expect(checkPlan(loaded.problem, made.value)).toEqual([]);
    expect(made.value.unplaced).toEqual([]);
    expect(placesOf(loaded, made.value.assignments)).toHaveLength(220);
    const problem = { ...loaded.problem, previous: made.value.assignments };
    const took: number[] = [];
    for (let round = 0; round < 10; round += 1) {
      const began = performance.now();
      const { operations } = explainPlan(problem, { assignments: keptAssignments(problem), unplaced: [] });
      took.push(performance.now() - began);
      expect(operations).toHaveLength(220);
    }
    console.log(`plan explained: first ${ms(took[0])}, fastest ${ms(Math.min(...took))}`);
    expect(Math.min(...took)).toBeLessThan(EXPLAIN_LIMIT_MS);
  });

  it('is told with all its reasons over HTTP', async () => {
    const loaded = await floor.load();
    const made = replan(loaded.problem, { timeLimitMs: 300, now: () => performance.now(), seed: 1 });
    if (!made.ok) throw new Error(made.fault.detail);
    const planRunId = await floor.run();
    for (const row of placesOf(loaded, made.value.assignments))
      await floor.place(row.workOrderId ?? '', {
        ...{ bayId: row.bayId, technicianId: row.technicianId, planRunId, units: row.tools },
        ...{
          from: row.startsAt,
          to: row.endsAt,
          ...(row.bayUntil === null ? {} : { bayUntil: row.bayUntil }),
        },
      });
    const again = await floor.load();
    expect(checkPlan(again.problem, { assignments: keptAssignments(again.problem) })).toEqual([]);
    const took: number[] = [];
    for (let round = 0; round < 10; round += 1) {
      const began = performance.now();
      const { body } = await shop.frontDesk.get('/plan').expect(200);
      took.push(performance.now() - began);
      expect(body.planned).toHaveLength(220);
      expect(body.notPlanned).toEqual([]);
    }
    console.log(`plan over HTTP: fastest ${ms(Math.min(...took))}`);
  });
});

const ms = (time: number | undefined): string => `${(time ?? 0).toFixed(1)} ms`;
