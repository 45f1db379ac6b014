import { planSettles } from '../support/plan-jobs.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';
import type { LineWish, MadeWork } from './floor.js';
import { PlanShopBuilder } from './plan-shop.js';

// 11 March 2026 is a Wednesday; New York is at UTC-4 since Sunday.
export const at = (time: string, day = '2026-03-11'): string =>
  new Date(`${day}T${time}:00-04:00`).toISOString();

export const WEIGHTS = {
  lateness: 1,
  startMoved: 60,
  hourMoved: 10,
  technicianChanged: 30,
  bayChanged: 10,
  nearMinutes: 2880,
};

export interface YardPlace {
  readonly id: string;
  readonly bayId: string;
  readonly technicianId: string;
  readonly startsAt: string;
  readonly endsAt: string;
  readonly bayUntil: string | null;
  readonly isPinned: boolean;
  readonly planRunId: string | null;
  readonly version: number;
}

type Row = Omit<YardPlace, 'startsAt' | 'endsAt' | 'bayUntil'> & {
  readonly startsAt: Date;
  readonly endsAt: Date;
  readonly bayUntil: Date | null;
};

/** A yard of its own for each story: two lifts, two technicians who work from eight to five. */
export class Yard {
  bays: string[] = [];
  bram = '';
  saffi = '';

  private constructor(
    readonly shop: ShopUnderTest,
    readonly floor: PlanShopBuilder,
  ) {}

  static async open(mode: 'by-hand' | 'propose' | 'apply', o: { bays?: number } = {}): Promise<Yard> {
    const shop = await shopUnderTest({ now: at('08:00') });
    const yard = new Yard(shop, new PlanShopBuilder(shop));
    [yard.bram, yard.saffi] = [shop.technician.staffId, shop.secondTechnician.staffId];
    for (const person of [yard.bram, yard.saffi]) await yard.floor.everyDay(person);
    for (let n = 0; n < (o.bays ?? 2); n += 1) yard.bays.push(await yard.floor.bay());
    await shop.manager
      .put('/plan/settings', { mode, weights: WEIGHTS, frozenMinutes: 0, horizonDays: 14 }, 0)
      .expect(200);
    await planSettles(shop);
    return yard;
  }

  /** Lift work on a car of its own. */
  work(hundredths: number, promisedAt?: string, wish: LineWish = {}): Promise<MadeWork> {
    return this.floor
      .repairOrder(promisedAt === undefined ? {} : { promisedAt })
      .then((order) => this.floor.work({ hundredths, needsLift: true, ...wish }, order));
  }

  settles(): Promise<void> {
    return planSettles(this.shop);
  }

  async placeOf({ workOrderId }: MadeWork): Promise<YardPlace> {
    const place = await this.findPlace(workOrderId);
    if (!place) throw new Error('it has no place');
    return place;
  }

  async findPlace(workOrderId: string): Promise<YardPlace | undefined> {
    const [row] = await this.shop.sql<Row>(
      `select id, bay_id as "bayId", technician_id as "technicianId", starts_at as "startsAt", ends_at as "endsAt",
              bay_until as "bayUntil", is_pinned as "isPinned", plan_run_id as "planRunId", version
         from assignments where work_order_id = $1 and cancelled_at is null`,
      [workOrderId],
    );
    return (
      row && {
        ...row,
        startsAt: row.startsAt.toISOString(),
        endsAt: row.endsAt.toISOString(),
        bayUntil: row.bayUntil?.toISOString() ?? null,
      }
    );
  }

  /** As the API tells them; specs look at the body with matchers. */
  async runs(query = '') {
    return (await this.shop.frontDesk.get(`/plan/runs${query}`).expect(200)).body.items;
  }

  async lastRun() {
    const [last] = await this.runs('?limit=1');
    return (await this.shop.frontDesk.get(`/plan/runs/${last.id}`).expect(200)).body;
  }
}
