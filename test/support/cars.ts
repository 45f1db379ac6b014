import { newId } from '#server/platform/ids';
import type { ShopUnderTest } from './shop-under-test.js';

export interface Car {
  readonly vehicleId: string;
  readonly customerId: string;
}

let plates = 100;

/** A customer with an older car of an invented make, written straight into the database. */
export async function aCar(
  shop: ShopUnderTest,
  o: { shopId?: string; plate?: string; customer?: string } = {},
): Promise<Car> {
  const shopId = o.shopId ?? shop.shopId;
  const customerId = newId();
  const vehicleId = newId();
  const now = shop.clock.now();
  await shop.sql(
    `insert into customers (shop_id, id, display_name, phone, email, address, note, search_text, version, created_at)
     values ($1, $2, $3, '+12025550111', null, null, null, 'x', 1, $4)`,
    [shopId, customerId, o.customer ?? 'Ines Halloway', now],
  );
  await shop.sql(
    `insert into vehicles (shop_id, id, customer_id, plate, vin, vin_verdict, make, model, model_year, colour, drivetrain,
       weight_kg, height_mm, value_cents, note, search_text, version, created_at)
     values ($1, $2, $3, $4, null, null, 'Corvane', 'Tessel', 2009, 'grey', 'combustion', 1420, 1500, null, null, 'x', 1, $5)`,
    [shopId, vehicleId, customerId, o.plate ?? `KY ${(plates += 1)}`, now],
  );
  return { vehicleId, customerId };
}

export interface StayOptions {
  readonly reading?: number;
  readonly concern?: string;
}

/** The car at the desk: the front desk opens its repair order through the API. */
export async function aStay(
  shop: ShopUnderTest,
  car: Car,
  o: StayOptions = {},
): Promise<{ id: string; number: number; version: number }> {
  const opened = await shop.frontDesk
    .post('/repair-orders', {
      vehicleId: car.vehicleId,
      concern: o.concern ?? 'It pulls to the left when I brake',
      odometer: { reading: o.reading ?? 148_210, unit: 'km' },
      wantsPartsBack: false,
    })
    .expect(201);
  return opened.body as { id: string; number: number; version: number };
}

export type Answer = 'approved' | 'declined' | 'deferred';

/** A line in a revision that was sent, and the answer to it, as the estimate would leave them; all in SQL. */
export async function aSoldLine(
  shop: ShopUnderTest,
  repairOrderId: string,
  o: { title?: string; findingId?: string; answer?: Answer; sent?: boolean; lookAgainOn?: string } = {},
): Promise<{ lineId: string; decisionId: string }> {
  const [lineId, revisionId, decisionId] = [newId(), newId(), newId()];
  const now = shop.clock.now();
  const at = [shop.shopId, repairOrderId] as const;
  await shop.sql(
    `insert into revisions (shop_id, id, repair_order_id, number, version)
     select $1, $3, $2, coalesce(max(number), 0) + 1, 1 from revisions where shop_id = $1 and repair_order_id = $2`,
    [...at, revisionId],
  );
  await shop.sql(
    `insert into lines (shop_id, id, repair_order_id, revision_id, sequence, title, rate_id, rate_cents_per_hour)
     select $1, $3, $2, $4, 1, $5, r.id, r.cents_per_hour from labour_rates r where r.shop_id = $1 and r.is_default`,
    [...at, lineId, revisionId, o.title ?? 'Front brake pads'],
  );
  if (o.findingId !== undefined)
    await shop.sql('insert into line_findings (shop_id, line_id, finding_id) values ($1, $2, $3)', [
      shop.shopId,
      lineId,
      o.findingId,
    ]);
  if (o.sent === false) return { lineId, decisionId };
  await shop.sql(
    `update revisions set sent_at = $3, sent_by = $4, valid_until = $3, shown = '{}', shown_sha256 = 'x', total_cents = 1
      where shop_id = $1 and id = $2`,
    [shop.shopId, revisionId, now, shop.frontDesk.staffId],
  );
  if (o.answer === undefined) return { lineId, decisionId };
  await shop.sql(
    `insert into decisions (shop_id, id, repair_order_id, revision_id, line_id, sequence, answer, shown_hundredths,
       shown_labour_cents, shown_parts_cents, shown_supplies_cents, shown_tax_cents, shown_total_cents, shown_sha256,
       decided_at, channel, decided_by, recorded_by, evidence, look_again_on)
     values ($1, $3, $2, $4, $5, 1, $6, 100, 1, 0, 0, 0, 1, 'x', $7, 'phone', 'Ines Halloway', $8, '{}', $9)`,
    [...at, decisionId, revisionId, lineId, o.answer, now, shop.frontDesk.staffId, o.lookAgainOn ?? null],
  );
  return { lineId, decisionId };
}

let workOrders = 5000;

/** An approved line released to the floor, at the point that is asked for. */
export async function aWorkOrder(
  shop: ShopUnderTest,
  repairOrderId: string,
  o: { title?: string; findingId?: string; at?: 'released' | 'finished' | 'checked' } = {},
): Promise<{ workOrderId: string; lineId: string; number: number }> {
  const { lineId, decisionId } = await aSoldLine(shop, repairOrderId, { ...o, answer: 'approved' });
  const workOrderId = newId();
  const now = shop.clock.now();
  const done = o.at === 'finished' || o.at === 'checked';
  const number = (workOrders += 1);
  await shop.sql(
    `insert into work_orders (shop_id, id, number, repair_order_id, line_id, decision_id, decision_answer, title,
       book_hundredths, needs_lift, bay_kinds, skills, cautions, released_at, finished_at, finished_by, checked_at, checked_by,
       version)
     values ($1, $2, $3, $4, $5, $6, 'approved', $7, 100, false, '{}', '{}', '{}', $8, $9, $10, $11, $12, 1)`,
    [
      shop.shopId,
      workOrderId,
      number,
      repairOrderId,
      lineId,
      decisionId,
      o.title ?? 'Front brake pads',
      now,
      done ? now : null,
      done ? shop.technician.staffId : null,
      o.at === 'checked' ? now : null,
      o.at === 'checked' ? shop.secondTechnician.staffId : null,
    ],
  );
  return { workOrderId, lineId, number };
}

/** A small walk: two stations, four checkpoints, one of them measured against a limit. */
export async function aTemplate(shop: ShopUnderTest, name = 'Short walk'): Promise<TemplateBody> {
  const saved = await shop.manager
    .post('/inspection-templates', {
      name,
      stations: [
        {
          name: 'Around the car',
          checkpoints: [
            {
              component: 'Tyre tread',
              position: 'front-left',
              readingName: 'tread',
              readingUnit: 'mm',
              limit: { comparator: 'min', value: '1.6', source: 'UK and EU rule, central three quarters' },
            },
            { component: 'Lamps', position: 'vehicle' },
          ],
        },
        {
          name: 'Lift at knee height',
          checkpoints: [
            { component: 'Brake hose', position: 'front-left' },
            {
              component: 'Lower ball joint',
              position: 'front-right',
              readingName: 'play',
              readingUnit: 'mm',
            },
          ],
        },
      ],
    })
    .expect(201);
  return saved.body as TemplateBody;
}

export interface TemplateBody {
  readonly id: string;
  readonly edition: number;
  readonly stations: readonly {
    readonly checkpoints: readonly { readonly id: string; component: string }[];
  }[];
}
