import {
  checkPlan,
  checkProblem,
  keptAssignments,
  replan,
  type BrokenRule,
  type PlanProblem,
} from '#libs/plan';
import { seeded } from '#libs/chance';
import { placesOf, type PlannedPlace, type ShopPlan } from '#server/modules/planning/index';
import { newId } from '#server/platform/ids';
import { PlanShopBuilder } from '../builders/plan-shop.js';
import type { MadeWork } from '../builders/floor.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

const NOW = '2026-03-11T14:20:40Z';
const SHOPS = 16;
const MINUTE_MS = 60_000;

const effort = { timeLimitMs: 1e9, now: () => 0, lookLimit: 300, seed: 1 };
const operationsOf = (problem: PlanProblem) => problem.repairOrders.flatMap(({ operations }) => operations);

/**
 * Whatever state a floor is in, also one that nobody meant: work on the clock without a place or in the place of another,
 * pins in the past, cars apart, parts without a date. Each shop is drawn anew from its number.
 */
describe('any shop, in whatever state', () => {
  let shop: ShopUnderTest;
  beforeAll(async () => {
    shop = await shopUnderTest({ now: NOW });
  });
  afterAll(async () => {
    await shop.stop();
  });

  it.each(Array.from({ length: SHOPS }, (_, k) => k + 1))(
    'number %i is a problem whose plan keeps every rule and can be stored',
    async (number) => {
      const floor = new PlanShopBuilder(shop, (await shop.addShop(`yard-${number}`)).shopId);
      await anyShop(floor, number, async (name) => (await addTechnician(shop, floor.ownShopId, name)).id);
      const loaded = await floor.load();
      expect(checkProblem(loaded.problem)).toMatchObject({ ok: true });
      const made = replan(loaded.problem, effort);
      if (!made.ok) throw new Error(made.fault.detail);
      const bad = checkPlan(loaded.problem, made.value).filter(isOfThePlan(loaded.problem));
      expect(bad).toEqual([]);
      await store(shop, floor.ownShopId, placesOf(loaded, made.value.assignments), loaded);
      // A pin that could not be kept is given up with its place; from then on its work is free, and its people's time too.
      if (made.value.unplaced.some(({ operation }) => loaded.assignmentOf.get(operation)?.isPinned)) return;
      const again = await floor.load();
      const kept = keptAssignments(again.problem);
      expect(
        checkPlan(again.problem, { assignments: kept, unplaced: unplacedIn(again, kept) }).filter(
          isOfThePlan(again.problem),
        ),
      ).toEqual([]);
      const second = replan(again.problem, effort);
      if (!second.ok) throw new Error(second.fault.detail);
      // What found no place is looked for again, and others may then lie better; else nothing changes at all.
      if (made.value.unplaced.length > 0) return;
      expect(second.value.changes).toEqual([]);
      const rows = placesOf(again, kept);
      for (const row of rows) {
        const was = again.assignmentOf.get(row.operation);
        const { bayId, startsAt, endsAt, bayUntil } = was ?? {};
        if (was !== undefined && !isOn(again, row.operation))
          expect({ id: row.operation, bayId, startsAt, endsAt, bayUntil }).toEqual({
            ...{ id: row.operation, bayId: row.bayId, startsAt: row.startsAt, endsAt: row.endsAt },
            bayUntil: row.bayUntil,
          });
      }
    },
    60_000,
  );
});

const isOn = ({ workOrders }: ShopPlan, id: string): boolean => workOrders.get(id)?.isOnTheClock === true;

/** What contradicts itself on the floor already is not the plan's doing. */
const isOfThePlan =
  (problem: PlanProblem) =>
  ({ operations }: BrokenRule): boolean => {
    const started = new Set(
      operationsOf(problem).flatMap(({ id, started }) => (started == null ? [] : [id])),
    );
    return !operations.every((id) => started.has(id));
  };

const unplacedIn = ({ problem }: ShopPlan, kept: readonly { operation: string }[]) => {
  const placed = new Set(kept.map(({ operation }) => operation));
  return operationsOf(problem).flatMap(({ id }) => (placed.has(id) ? [] : [{ operation: id, why: '' }]));
};

async function addTechnician(shop: ShopUnderTest, shopId: string, name: string): Promise<{ id: string }> {
  const id = newId();
  await shop.sql(
    `insert into staff (shop_id, id, display_name, email, roles, is_active, failed_sign_ins, version, created_at)
     values ($1, $2, $3, $4, array['technician'], true, 0, 1, now())`,
    [shopId, id, name, `${id}@example.test`],
  );
  return { id };
}

/** As a run would: everything that changes goes, then everything comes; the exclusion constraints watch. */
async function store(
  shop: ShopUnderTest,
  shopId: string,
  rows: readonly PlannedPlace[],
  loaded: ShopPlan,
): Promise<void> {
  const gone = [...loaded.assignmentOf.values()].map(({ assignmentId }) => assignmentId);
  await shop.sql('update assignments set cancelled_at = now() where shop_id = $1 and id = any ($2)', [
    shopId,
    gone,
  ]);
  await shop.sql(
    'update assignment_tools set cancelled_at = now() where shop_id = $1 and assignment_id = any ($2)',
    [...[shopId, gone]],
  );
  for (const row of rows) {
    const id = newId();
    await shop.sql(
      `insert into assignments (shop_id, id, work_order_id, bay_id, technician_id, starts_at, ends_at, bay_until, is_pinned, made_by, made_at, version)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $5, now(), 1)`,
      [
        ...[shopId, id, row.workOrderId, row.bayId, row.technicianId, row.startsAt, row.endsAt, row.bayUntil],
        loaded.assignmentOf.get(row.operation)?.isPinned ?? false,
      ],
    );
    for (const { toolId, unit } of row.tools)
      await shop.sql(
        `insert into assignment_tools (shop_id, assignment_id, tool_id, unit, starts_at, ends_at) values ($1, $2, $3, $4, $5, $6)`,
        [shopId, id, toolId, unit, row.startsAt, row.endsAt],
      );
  }
}

async function anyShop(
  floor: PlanShopBuilder,
  seed: number,
  technician: (name: string) => Promise<string>,
): Promise<void> {
  const random = seeded(seed);
  const below = (n: number): number => Math.floor(random() * n);
  const often = (tenths: number): boolean => random() * 10 < tenths;
  const now = Date.parse(NOW);
  const after = (minutes: number): Date =>
    new Date(now + minutes * MINUTE_MS + (often(4) ? below(50_000) : -40_000));
  const one = <T>(list: readonly T[]): T => list[below(list.length)] as T;
  const bays = [await floor.bay(), await floor.bay(), await floor.bay({ kind: 'flat' })];
  const people = [await technician('Ada'), await technician('Ben'), await technician('Cy')];
  for (const [k, id] of people.entries()) if (k < 2 || often(7)) await floor.everyDay(id);
  await floor.skill(people[0] ?? '', 'brakes');
  const tool = await floor.tool(2);
  const onTheClock = new Set<string>();
  for (let car = 0; car < 6; car += 1) {
    const order = await floor.repairOrder({ promisedAt: after(below(2000) - 200).toISOString() });
    const step = await floor.step();
    const mine: MadeWork[] = [];
    for (let k = 0; k <= below(4); k += 1) {
      const work = await floor.work(
        {
          hundredths: 20 + below(300),
          needsLift: often(5),
          ...{ skills: often(2) ? ['brakes'] : [], toolIds: often(3) ? [tool] : [] },
          stepIds: often(5) ? [step] : [],
          items: often(2) ? [{ expectedAt: often(7) ? after(below(900) - 100).toISOString() : null }] : [],
        },
        order,
      );
      const earlier = mine.at(-1);
      if (earlier !== undefined && often(4)) await floor.after(work.workOrderId, earlier.workOrderId);
      mine.push(work);
      const [who, bay, from] = [one(people), one(bays), below(700) - 250];
      const units = often(5) ? [{ toolId: tool, unit: 1 + below(2) }] : [];
      if (often(6))
        await floor
          .place(work.workOrderId, {
            ...{ bayId: bay, technicianId: who, from: after(from), to: after(from + 20 + below(200)) },
            ...{ isPinned: often(4), units },
          })
          .catch(() => undefined);
      const state = below(8);
      if (state === 0) await floor.claim(work.workOrderId, who, after(-60));
      if (state === 1 && !onTheClock.has(who)) {
        onTheClock.add(who);
        await floor.claim(work.workOrderId, who, after(-100));
        await floor.clocked(work.workOrderId, who, after(-10 - below(60)));
      }
      if (state === 2 || state === 3) {
        const began = -2000 - car * 200 - k * 40;
        await floor.clocked(work.workOrderId, who, after(began), after(began + 30));
        if (state === 2) await floor.claim(work.workOrderId, who, after(began - 5));
        else await floor.finished(work.workOrderId, who, after(-1 - below(100)));
      }
      if (state === 4) await floor.leftOut(work.workOrderId);
    }
  }
}
