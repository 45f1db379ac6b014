import { loadShopPlan, type PlanContributor, type ShopPlan } from '#server/modules/planning/index';
import { systemContext } from '#server/platform/context';
import { newId } from '#server/platform/ids';
import { ok } from '#libs/kernel';
import type { ShopUnderTest } from '../support/shop-under-test.js';
import { FloorBuilder, type LineWish, type MadeWork } from './floor.js';

export interface PlaceWish {
  readonly bayId: string;
  readonly technicianId: string;
  readonly from: string | Date;
  readonly to: string | Date;
  readonly bayUntil?: string | Date;
  readonly isPinned?: boolean;
  /** The run that gave it; a person did unless it is given. */
  readonly planRunId?: string;
  readonly units?: readonly { readonly toolId: string; readonly unit: number }[];
}

const WEEK = [1, 2, 3, 4, 5, 6, 7];

/** A shop whose floor has work on it: claimed, under way, finished, planned. Past the use cases, as they are not under test. */
export class PlanShopBuilder extends FloorBuilder {
  constructor(
    readonly shopUnderTest: ShopUnderTest,
    readonly ownShopId: string = shopUnderTest.shopId,
  ) {
    super(shopUnderTest, ownShopId);
  }

  /** The whole plan problem, as the planner would get it now. */
  load(...contributors: PlanContributor[]): Promise<ShopPlan> {
    return this.uow.read(systemContext(this.ownShopId, 'test'), async (tx) =>
      ok(await loadShopPlan(tx, contributors)),
    );
  }

  /** 8:00 to 17:00 every day, half an hour of break at noon. */
  async everyDay(technicianId: string): Promise<void> {
    for (const day of WEEK) await this.shift(technicianId, day, 480, 1020, [720, 750]);
  }

  /** Live again after each call: one place a work order. */
  async place(workOrderId: string, wish: PlaceWish): Promise<string> {
    const id = newId();
    const shop = this.shopUnderTest;
    const [who] = await shop.sql<{ id: string }>('select id from staff where shop_id = $1 limit 1', [
      this.ownShopId,
    ]);
    await shop.sql(
      `insert into assignments (shop_id, id, work_order_id, bay_id, technician_id, starts_at, ends_at, bay_until, is_pinned,
         plan_run_id, made_by, made_at, version) values ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, 1)`,
      [
        ...[this.ownShopId, id, workOrderId, wish.bayId, wish.technicianId, wish.from, wish.to],
        ...[wish.bayUntil ?? null, wish.isPinned ?? false, wish.planRunId ?? null],
        ...[wish.planRunId === undefined ? who?.id : null, this.shopUnderTest.clock.now()],
      ],
    );
    for (const { toolId, unit } of wish.units ?? [])
      await shop.sql(
        `insert into assignment_tools (shop_id, assignment_id, tool_id, unit, starts_at, ends_at) values ($1, $2, $3, $4, $5, $6)`,
        [this.ownShopId, id, toolId, unit, wish.from, wish.to],
      );
    return id;
  }

  async claim(workOrderId: string, technicianId: string, at: string | Date): Promise<void> {
    await this.shopUnderTest.sql(
      'insert into claims (shop_id, id, work_order_id, technician_id, claimed_at) values ($1, $2, $3, $4, $5)',
      [this.ownShopId, newId(), workOrderId, technicianId, at],
    );
  }

  /** Clocked by this technician; still on the clock when there is no end. */
  async clocked(
    workOrderId: string,
    technicianId: string,
    from: string | Date,
    to?: string | Date,
  ): Promise<void> {
    await this.shopUnderTest.sql(
      `insert into clock_entries (shop_id, id, technician_id, kind, work_order_id, started_at, ended_at, end_kind, end_reason, recorded_by)
       values ($1, $2, $3, 'work', $4, $5, $6::timestamptz, case when $6::timestamptz is not null then 'pause' end,
         case when $6::timestamptz is not null then 'a test' end, $3)`,
      [this.ownShopId, newId(), technicianId, workOrderId, from, to ?? null],
    );
  }

  async finished(workOrderId: string, technicianId: string, at: string | Date): Promise<void> {
    await this.shopUnderTest.sql(
      'update work_orders set finished_at = $3, finished_by = $4 where shop_id = $1 and id = $2',
      [this.ownShopId, workOrderId, at, technicianId],
    );
    // As finishing does: what is left of its place is free again.
    await this.shopUnderTest.sql(
      `update assignments set cancelled_at = case when starts_at >= $3 then $3::timestamptz end,
         ends_at = case when starts_at >= $3 then ends_at
                        else least(ends_at, greatest($3::timestamptz, starts_at + interval '15 minutes')) end
        where shop_id = $1 and work_order_id = $2 and cancelled_at is null`,
      [this.ownShopId, workOrderId, at],
    );
    await this.shopUnderTest.sql(
      `update assignment_tools t set cancelled_at = a.cancelled_at, ends_at = a.ends_at from assignments a
        where a.shop_id = $1 and a.work_order_id = $2 and t.shop_id = $1 and t.assignment_id = a.id`,
      [this.ownShopId, workOrderId],
    );
  }

  async leftOut(workOrderId: string): Promise<void> {
    await this.shopUnderTest.sql(
      `insert into plan_left_out (shop_id, id, work_order_id, left_out_by, left_out_at)
       values ($1, $2, $3, (select id from staff where shop_id = $1 limit 1), $4)`,
      [this.ownShopId, newId(), workOrderId, this.shopUnderTest.clock.now()],
    );
  }

  async after(workOrderId: string, earlierId: string): Promise<void> {
    await this.shopUnderTest.sql(
      'insert into work_order_precedences (shop_id, work_order_id, earlier_id) values ($1, $2, $3)',
      [this.ownShopId, workOrderId, earlierId],
    );
  }

  async run(
    outcome: string | null = 'applied',
    at: string | Date = this.shopUnderTest.clock.now(),
  ): Promise<string> {
    const id = newId();
    await this.shopUnderTest.sql(
      `insert into plan_runs (shop_id, id, causes, improve, asked_at, ended_at, outcome, changes, promises, late, proposal)
       values ($1, $2, '[]', false, $3, case when $4::text is not null then $3::timestamptz end, $4, '[]',
         '{"broken": [], "kept": []}', '[]', case when $4 = 'proposed' then '{}'::jsonb end)`,
      [this.ownShopId, id, at, outcome],
    );
    return id;
  }

  /** Two pieces of work that share a step, on one car. */
  async teardown(wishes: readonly LineWish[], repairOrderId?: string): Promise<MadeWork[]> {
    const [order, stepId] = [repairOrderId ?? (await this.repairOrder()), await this.step()];
    const made: MadeWork[] = [];
    for (const wish of wishes) made.push(await this.work({ ...wish, stepIds: [stepId] }, order));
    return made;
  }

  /**
   * A floor of eight lifts and ten technicians with `count` open work orders on a quarter as many cars: parts that come
   * later, skills, tools, teardowns, promises over two weeks.
   */
  async fullFloor(count: number): Promise<{ bays: string[]; technicians: string[]; work: MadeWork[] }> {
    const [bays, technicians, work]: [string[], string[], MadeWork[]] = [[], [], []];
    const tools = [await this.tool(2), await this.tool(1), await this.tool(1)];
    for (let n = 0; n < 10; n += 1) bays.push(await this.bay({ kind: n < 8 ? 'lift' : 'flat' }));
    for (let n = 0; n < 10; n += 1) {
      const { staffId } = await this.shopUnderTest.addPerson('technician', `Technician ${n}`);
      technicians.push(staffId);
      await this.everyDay(staffId);
      if (n % 3 !== 0) await this.skill(staffId, 'brakes');
      if (n % 5 === 0) await this.skill(staffId, 'refrigerant', '2027-01-31');
    }
    const now = this.shopUnderTest.clock.now().getTime();
    const later = (hours: number): string => new Date(now + hours * 3_600_000).toISOString();
    for (let n = 0; n < count;) {
      const order = await this.repairOrder({ promisedAt: later(24 + ((n * 7) % 13) * 24) });
      const stepId = n % 3 === 0 ? await this.step() : null;
      for (let line = 0; line < 4 && n < count; line += 1, n += 1)
        work.push(
          await this.work(
            {
              hundredths: 60 + ((n * 37) % 240),
              needsLift: line % 2 === 0,
              skills: n % 4 === 1 ? ['brakes'] : n % 17 === 0 ? ['refrigerant'] : [],
              toolIds: n % 9 === 0 ? [tools[n % 3] ?? ''] : [],
              stepIds: stepId === null ? [] : [stepId],
              spread: [40, 400],
              items: n % 6 === 0 ? [{ expectedAt: later((n % 5) * 24) }] : [],
            },
            order,
          ),
        );
    }
    return { bays, technicians, work };
  }
}
