import { newId } from '#server/platform/ids';
import { systemContext } from '#server/platform/context';
import { UnitOfWork } from '#server/platform/database/unit-of-work';
import { releaseWorkOrder, withdrawWorkOrder } from '#server/modules/work-orders/index';
import type { ShopUnderTest } from '../support/shop-under-test.js';

export interface LineWish {
  title?: string;
  answer?: 'approved' | 'declined' | 'deferred' | null;
  /** False leaves the revision a draft. */
  sent?: boolean;
  hundredths?: number;
  labourCents?: number;
  partsCents?: number;
  taxCents?: number;
  needsLift?: boolean;
  bayKinds?: string[];
  skills?: string[];
  cautions?: string[];
  toolIds?: string[];
  items?: ItemWish[];
  /** Steps at the front, an hour each. */
  stepIds?: string[];
  /** Least and most hours. */
  spread?: readonly [low: number, high: number];
}

export interface ItemWish {
  kind?: 'part' | 'sublet' | 'fluid' | 'fee';
  name?: string;
  hundredths?: number;
  expectedAt?: string | null;
}

export interface MadeLine {
  readonly repairOrderId: string;
  readonly lineId: string;
  readonly decisionId: string;
  readonly itemIds: string[];
}

export interface MadeWork extends MadeLine {
  readonly workOrderId: string;
  readonly number: number;
}

/** Puts a floor and approved work into a shop, past the parts of the server that are not under test. */
export class FloorBuilder {
  private last = 100;
  private revisions = new Map<string, number>();

  constructor(
    private readonly shop: ShopUnderTest,
    private readonly shopId: string = shop.shopId,
  ) {}

  private next(): number {
    this.last += 1;
    return this.last;
  }

  private get now(): Date {
    return this.shop.clock.now();
  }

  async bay(
    o: { kind?: string; capacityKg?: number; inspectedOn?: string | null; maxHeightMm?: number } = {},
  ): Promise<string> {
    const id = newId();
    const kind = o.kind ?? 'lift';
    const number = this.next();
    await this.shop.sql(
      `insert into bays (shop_id, id, number, name, kind, lift_kind, capacity_kg, max_height_mm, lift_inspected_on, is_active, version)
       values ($1, $2, $3, $4, $5, $6, $7, $8, $9, true, 1)`,
      [
        this.shopId,
        id,
        number,
        `Bay ${number}`,
        kind,
        kind === 'flat' ? null : 'two-post',
        kind === 'flat' ? null : (o.capacityKg ?? 3500),
        o.maxHeightMm ?? null,
        kind === 'flat' ? null : o.inspectedOn === undefined ? '2025-10-01' : o.inspectedOn,
      ],
    );
    return id;
  }

  async tool(units = 1, name?: string): Promise<string> {
    const id = newId();
    const number = this.next();
    await this.shop.sql(
      'insert into special_tools (shop_id, id, name, units, version) values ($1, $2, $3, $4, 1)',
      [this.shopId, id, name ?? `Tool ${number}`, units],
    );
    return id;
  }

  async skill(technicianId: string, skill: string, validUntil: string | null = null): Promise<void> {
    await this.shop.sql(
      `insert into technician_skills (shop_id, technician_id, skill, certificate, valid_until) values ($1, $2, $3, null, $4)`,
      [this.shopId, technicianId, skill, validUntil],
    );
  }

  async shift(
    technicianId: string,
    weekday: number,
    from: number,
    to: number,
    pause?: [number, number],
  ): Promise<void> {
    await this.shop.sql(
      `insert into shift_patterns (shop_id, id, technician_id, weekday, from_minute, to_minute, break_from_minute, break_to_minute)
       values ($1, $2, $3, $4, $5, $6, $7, $8)`,
      [this.shopId, newId(), technicianId, weekday, from, to, pause?.[0] ?? null, pause?.[1] ?? null],
    );
  }

  async repairOrder(
    o: { weightKg?: number | null; heightMm?: number; drivetrain?: string; promisedAt?: string } = {},
  ): Promise<string> {
    const [customer, vehicle, id] = [newId(), newId(), newId()];
    const number = this.next();
    await this.shop.sql(
      `insert into customers (shop_id, id, display_name, search_text, version, created_at) values ($1, $2, 'Ilse Harrow', '', 1, $3)`,
      [this.shopId, customer, this.now],
    );
    await this.shop.sql(
      `insert into vehicles (shop_id, id, customer_id, plate, make, model, model_year, drivetrain, weight_kg, height_mm, search_text, version, created_at)
       values ($1, $2, $3, $4, 'Tarn', 'Vale', 1998, $5, $6, $7, '', 1, $8)`,
      [
        this.shopId,
        vehicle,
        customer,
        `KY ${number}`,
        o.drivetrain ?? 'combustion',
        o.weightKg === undefined ? 1400 : o.weightKg,
        o.heightMm ?? null,
        this.now,
      ],
    );
    await this.shop.sql(
      `insert into repair_orders (shop_id, id, number, vehicle_id, customer_id, concern, odometer_unit, odometer_in, wants_parts_back,
         dropped_off_at, promised_at, opened_by, version)
       values ($1, $2, $3, $4, $5, 'It pulls to the left.', 'km', 210000, false, $6, $7,
         (select id from staff where shop_id = $1 limit 1), 1)`,
      [this.shopId, id, number, vehicle, customer, this.now, o.promisedAt ?? null],
    );
    return id;
  }

  /** A line in a revision of its own, sent and answered unless told otherwise. */
  async line(wish: LineWish = {}, repairOrderId?: string): Promise<MadeLine> {
    const order = repairOrderId ?? (await this.repairOrder());
    const [revisionId, lineId] = [newId(), newId()];
    const number = (this.revisions.get(order) ?? 0) + 1;
    this.revisions.set(order, number);
    await this.shop.sql(
      'insert into revisions (shop_id, id, repair_order_id, number, version) values ($1, $2, $3, $4, 1)',
      [this.shopId, revisionId, order, number],
    );
    await this.shop.sql(
      `insert into lines (shop_id, id, repair_order_id, revision_id, sequence, title, rate_id, rate_cents_per_hour)
       values ($1, $2, $3, $4, 1, $5, (select id from labour_rates where shop_id = $1 limit 1), 12950)`,
      [this.shopId, lineId, order, revisionId, wish.title ?? 'Front brake pads'],
    );
    await this.operation(lineId, wish);
    await this.hours(lineId, wish);
    const itemIds = await this.items(lineId, wish.items ?? []);
    if (wish.sent !== false) await this.send(revisionId);
    const answer = wish.answer === undefined ? 'approved' : wish.answer;
    const decisionId =
      answer && wish.sent !== false ? await this.decide(order, lineId, answer, wish) : newId();
    return { repairOrderId: order, lineId, decisionId, itemIds };
  }

  /** An approved line, released to the floor. */
  async work(wish: LineWish = {}, repairOrderId?: string): Promise<MadeWork> {
    const line = await this.line(wish, repairOrderId);
    return { ...line, ...(await this.release(line)) };
  }

  async release(line: MadeLine): Promise<{ workOrderId: string; number: number }> {
    return this.uow.run(systemContext(this.shopId, 'test'), (tx) => releaseWorkOrder(tx, line));
  }

  async withdraw(lineId: string): Promise<void> {
    await this.uow.run(systemContext(this.shopId, 'test'), (tx) => withdrawWorkOrder(tx, lineId));
  }

  get uow(): UnitOfWork {
    return this.shop.server.app.get(UnitOfWork);
  }

  async decide(repairOrderId: string, lineId: string, answer: string, wish: LineWish = {}): Promise<string> {
    const id = newId();
    const [labour, parts, tax] = [wish.labourCents ?? 12950, wish.partsCents ?? 0, wish.taxCents ?? 0];
    await this.shop.sql(
      `insert into decisions (shop_id, id, repair_order_id, revision_id, line_id, sequence, answer, shown_hundredths,
         shown_labour_cents, shown_parts_cents, shown_supplies_cents, shown_tax_cents, shown_total_cents, shown_sha256,
         decided_at, channel, decided_by, recorded_by, evidence)
       values ($1, $2, $3, (select revision_id from lines where shop_id = $1 and id = $4), $4,
         1 + (select count(*) from decisions where shop_id = $1 and line_id = $4), $5, $6, $7, $8, 0, $9, $10, 'x',
         $11, 'phone', 'Ilse Harrow', (select id from staff where shop_id = $1 limit 1), '{}')`,
      [
        this.shopId,
        id,
        repairOrderId,
        lineId,
        answer,
        wish.hundredths ?? 100,
        labour,
        parts,
        tax,
        labour + parts + tax,
        this.now,
      ],
    );
    return id;
  }

  private async operation(lineId: string, wish: LineWish): Promise<void> {
    const id = newId();
    const number = this.next();
    await this.shop.sql(
      `insert into operations (shop_id, id, code, name, needs_lift, bay_kinds, skills, cautions, is_active, version)
       values ($1, $2, $3, 'An operation', $4, $5, $6, $7, true, 1)`,
      [
        this.shopId,
        id,
        `OP-${number}`,
        wish.needsLift ?? false,
        wish.bayKinds ?? [],
        wish.skills ?? [],
        wish.cautions ?? [],
      ],
    );
    for (const toolId of wish.toolIds ?? [])
      await this.shop.sql(
        'insert into operation_tools (shop_id, operation_id, tool_id) values ($1, $2, $3)',
        [this.shopId, id, toolId],
      );
    await this.shop.sql(
      `insert into line_operations (shop_id, line_id, operation_id, positions) values ($1, $2, $3, array['vehicle'])`,
      [this.shopId, lineId, id],
    );
  }

  async step(): Promise<string> {
    const id = newId();
    await this.shop.sql(
      `insert into steps (shop_id, id, code, name, hundredths, version) values ($1, $2, $3, 'Bumper off and on', 100, 1)`,
      [this.shopId, id, `ST-${this.next()}`],
    );
    return id;
  }

  private async hours(lineId: string, { stepIds = [], spread, hundredths = 100 }: LineWish): Promise<void> {
    for (const stepId of stepIds)
      await this.shop.sql(
        `insert into line_steps (shop_id, line_id, step_id, position, hundredths) values ($1, $2, $3, 'front', 100)`,
        [this.shopId, lineId, stepId],
      );
    if (spread !== undefined)
      await this.shop.sql(
        `update lines set low_hundredths = $3, high_hundredths = $4, low_items_cents = 0, high_items_cents = 0,
           entered_hundredths = $5, entered_source = 'a test' where shop_id = $1 and id = $2`,
        [this.shopId, lineId, ...spread, hundredths],
      );
  }

  private async items(lineId: string, wishes: ItemWish[]): Promise<string[]> {
    const ids: string[] = [];
    for (const [at, wish] of wishes.entries()) {
      const id = newId();
      const kind = wish.kind ?? 'part';
      await this.shop.sql(
        `insert into line_items (shop_id, id, line_id, sequence, kind, name, condition, source, quantity_hundredths,
           unit_price_cents, core_cents, expected_at)
         values ($1, $2, $3, $4, $5, $6, $7, $8, $9, 2500, 0, $10)`,
        [
          this.shopId,
          id,
          lineId,
          at + 1,
          kind,
          wish.name ?? 'brake pad set',
          kind === 'part' ? 'new' : null,
          kind === 'part' ? 'supplier' : null,
          wish.hundredths ?? 100,
          wish.expectedAt ?? null,
        ],
      );
      ids.push(id);
    }
    return ids;
  }

  private async send(revisionId: string): Promise<void> {
    await this.shop.sql(
      `update revisions set sent_at = $3::timestamptz, sent_by = (select id from staff where shop_id = $1 limit 1),
         valid_until = $3::timestamptz + interval '7 days', shown = '{}', shown_sha256 = 'x', total_cents = 0
       where shop_id = $1 and id = $2`,
      [this.shopId, revisionId, this.now],
    );
  }
}
