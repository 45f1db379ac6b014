import { randomUUID } from 'node:crypto';
import { FloorBuilder, type MadeWork } from '../builders/floor.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

// 11 March 2026 is a Wednesday; New York went over to daylight saving time on 8 March (UTC-4 from then on).
const at = (time: string, day = '2026-03-11'): string => `${day}T${time}:00-04:00`;
const utc = (time: string, day?: string): string => new Date(at(time, day)).toISOString();

describe('the front desk plans the floor by hand', () => {
  let shop: ShopUnderTest;
  let floor: FloorBuilder;
  let bram: string;
  let saffi: string;
  beforeAll(async () => {
    shop = await shopUnderTest();
    floor = new FloorBuilder(shop);
    bram = shop.technician.staffId;
    saffi = shop.secondTechnician.staffId;
  });
  afterAll(async () => {
    await shop.stop();
  });
  interface Wish {
    workOrderId: string;
    bayId: string;
    technicianId: string;
    startsAt: string;
    endsAt: string;
  }
  const assign = (wish: Wish) => shop.frontDesk.post('/assignments', wish);
  const wish = (
    work: MadeWork,
    bayId: string,
    technicianId = bram,
    from = '09:00',
    to = '11:00',
    day?: string,
  ): Wish => ({
    workOrderId: work.workOrderId,
    bayId,
    technicianId,
    startsAt: at(from, day),
    endsAt: at(to, day),
  });

  it('books a lift and tells who has it to the next; back to back is no overlap', async () => {
    const bayId = await floor.bay();
    const [first, second, third] = [await floor.work(), await floor.work(), await floor.work()];
    const made = await assign(wish(first, bayId)).expect(201);
    expect(made.body).toMatchObject({
      workOrderNumber: first.number,
      bayId,
      technicianName: 'Bram',
      startsAt: utc('09:00'),
      endsAt: utc('11:00'),
      tools: [],
      warnings: [],
      version: 1,
    });
    const holder = { workOrderNumber: first.number, startsAt: utc('09:00'), endsAt: utc('11:00') };
    const bay = await assign(wish(second, bayId, saffi, '10:59', '12:00')).expect(409);
    expect(bay.body).toMatchObject({ code: 'bay-taken', holder });
    const other = await floor.bay();
    const person = await assign(wish(second, other, bram, '08:00', '09:01')).expect(409);
    expect(person.body).toMatchObject({ code: 'technician-taken', holder });
    await assign(wish(second, bayId, bram, '11:00', '12:00')).expect(201);
    await assign(wish(third, bayId, bram, '08:00', '09:00')).expect(201);
    const twice = await assign(wish(first, other, saffi)).expect(409);
    expect(twice.body).toMatchObject({ code: 'work-order-already-assigned', assignmentId: made.body.id });
  });

  it('never puts a vehicle on a lift below its weight, or on one overdue for inspection at the end of the time', async () => {
    const strong = await floor.bay({ capacityKg: 3500 });
    const light = await floor.bay({ capacityKg: 1399 });
    const lapsing = await floor.bay({ inspectedOn: '2025-03-11' });
    const flat = await floor.bay({ kind: 'flat' });
    const low = await floor.bay({ kind: 'flat', maxHeightMm: 2000 });
    const [kind, heavy, weightless, tall] = [
      await floor.work({ needsLift: true }),
      await floor.work({ needsLift: true }, await floor.repairOrder({ weightKg: 3501 })),
      await floor.work({ needsLift: true }, await floor.repairOrder({ weightKg: null })),
      await floor.work({}, await floor.repairOrder({ heightMm: 2001 })),
    ];
    const refused = async (work: MadeWork, bay: string, day = '2026-03-12') =>
      (await assign(wish(work, bay, bram, '13:00', '14:00', day)).expect(409)).body;
    expect(await refused(kind, light)).toMatchObject({
      code: 'lift-capacity-exceeded',
      weightKg: 1400,
      capacityKg: 1399,
    });
    expect((await refused(heavy, strong)).code).toBe('lift-capacity-exceeded');
    expect((await refused(weightless, strong)).code).toBe('vehicle-weight-unknown');
    expect((await refused(kind, lapsing)).code).toBe('lift-inspection-overdue');
    expect((await refused(kind, flat)).code).toBe('lift-needed');
    expect((await refused(tall, low)).code).toBe('vehicle-too-high');
    await assign(wish(kind, lapsing, bram, '22:00', '23:59')).expect(201);
    await shop.sql(`update bays set out_of_service_reason = 'cable worn' where id = $1`, [strong]);
    const all = await refused(heavy, strong);
    expect(all.code).toBe('bay-out-of-service');
    expect(all.reasons.map((r: { code: string }) => r.code)).toEqual([
      'bay-out-of-service',
      'lift-capacity-exceeded',
    ]);
    const alignment = await floor.work({ bayKinds: ['alignment'] });
    expect((await refused(alignment, flat)).code).toBe('bay-kind-not-suitable');
  });

  it('takes a certificate that lasts to the end of the work, not one that runs out before', async () => {
    await floor.skill(bram, '609', '2026-03-20');
    const bayId = await floor.bay();
    const work = await floor.work({ skills: ['609'] });
    const late = await assign(wish(work, bayId, bram, '09:00', '10:00', '2026-03-21')).expect(409);
    expect(late.body.code).toBe('technician-not-qualified');
    await assign({
      ...wish(work, bayId),
      startsAt: at('22:00', '2026-03-20'),
      endsAt: at('00:01', '2026-03-21'),
    }).expect(409);
    await assign({
      ...wish(work, bayId),
      startsAt: at('22:00', '2026-03-20'),
      endsAt: at('00:00', '2026-03-21'),
    }).expect(201);
    expect(
      (await assign(wish(await floor.work({ skills: ['609'] }), bayId, saffi)).expect(409)).body.code,
    ).toBe('technician-not-qualified');
  });

  it('warns of time outside the shift or in the break, by the wall clock also on the day of the change', async () => {
    await floor.shift(saffi, 3, 480, 1020, [720, 750]);
    await floor.shift(saffi, 7, 60, 600);
    const bayId = await floor.bay();
    const warned = async (from: string, to: string, day: string) =>
      (
        await assign({ ...wish(await floor.work(), bayId, saffi), startsAt: from, endsAt: to }).expect(201)
      ).body.warnings.map((w: { code: string }) => `${w.code} ${day}`);
    const day = '2026-03-25';
    expect(await warned(at('08:00', day), at('12:00', day), day)).toEqual([]);
    expect(await warned(at('12:00', day), at('12:30', day), day)).toEqual([`outside-shift ${day}`]);
    expect(await warned(at('16:30', day), at('17:01', day), day)).toEqual([`outside-shift ${day}`]);
    // Sunday 1 November 2026: 1:00 to 10:00 on the wall is ten hours long.
    expect(await warned('2026-11-01T01:00:00-04:00', '2026-11-01T10:00:00-05:00', 'nov')).toEqual([]);
    expect(await warned('2026-11-01T00:59:00-04:00', '2026-11-01T01:00:00-04:00', 'nov')).toEqual([
      'outside-shift nov',
    ]);
    const order = await floor.repairOrder();
    const elsewhere = await floor.bay();
    await assign(wish(await floor.work({}, order), bayId, saffi, '08:00', '09:00', '2026-03-26')).expect(201);
    const second = await assign(
      wish(await floor.work({}, order), elsewhere, bram, '08:30', '09:30', '2026-03-26'),
    ).expect(201);
    expect(second.body.warnings).toMatchObject([{ code: 'vehicle-elsewhere' }]);
  });

  it('gives out the units of a tool one by one and says who has the last', async () => {
    const toolId = await floor.tool(2, 'engine support bar');
    const [bayA, bayB, bayC] = [await floor.bay(), await floor.bay(), await floor.bay()];
    const third = await shop.addPerson('technician', 'Piet');
    const wanted = { toolIds: [toolId] };
    const [a, b, c] = [await floor.work(wanted), await floor.work(wanted), await floor.work(wanted)];
    const day = '2026-04-01';
    const one = await assign(wish(a, bayA, bram, '09:00', '11:00', day)).expect(201);
    const two = await assign(wish(b, bayB, saffi, '10:00', '12:00', day)).expect(201);
    expect([one, two].map(({ body }) => body.tools)).toEqual([
      [{ toolId, name: 'engine support bar', unit: 1 }],
      [{ toolId, name: 'engine support bar', unit: 2 }],
    ]);
    const none = await assign(wish(c, bayC, third.staffId, '10:30', '11:30', day)).expect(409);
    expect(none.body).toMatchObject({ code: 'tool-taken', holder: { workOrderNumber: a.number } });
    const moved = await shop.frontDesk
      .patch(`/assignments/${one.body.id}`, { startsAt: at('13:00', day), endsAt: at('14:00', day) }, 1)
      .expect(200);
    expect(moved.body).toMatchObject({ version: 2, tools: [{ unit: 1 }] });
    const freed = await assign(wish(c, bayC, third.staffId, '10:30', '11:30', day)).expect(201);
    expect(freed.body.tools).toMatchObject([{ unit: 1 }]);
  });

  it('moves and cancels on the version that was read, and frees what was held', async () => {
    const [bayId, other] = [await floor.bay(), await floor.bay()];
    const [work, next] = [await floor.work(), await floor.work()];
    const day = '2026-04-02';
    const made = (await assign(wish(work, bayId, bram, '09:00', '11:00', day)).expect(201)).body;
    const path = `/assignments/${made.id}`;
    const moved = await shop.frontDesk.patch(path, { bayId: other, technicianId: saffi }, 1).expect(200);
    expect(moved.body).toMatchObject({
      bayId: other,
      technicianName: 'Saffi',
      version: 2,
      startsAt: made.startsAt,
    });
    expect(moved.headers['etag']).toBe('"2"');
    expect((await shop.frontDesk.patch(path, { bayId }, 1).expect(412)).body.currentVersion).toBe(2);
    await shop.frontDesk.delete(path).expect(428);
    await shop.frontDesk.delete(path, undefined, { 'if-match': '"1"' }).expect(412);
    await shop.frontDesk.delete(path, undefined, { 'if-match': '"2"' }).expect(204);
    await shop.frontDesk.delete(path, undefined, { 'if-match': '"3"' }).expect(404);
    await assign(wish(next, other, saffi, '09:00', '11:00', day)).expect(201);
    await assign(wish(work, bayId, bram, '09:00', '11:00', day)).expect(201);
  });

  it('keeps running work where it stands and frees the rest of its time when it is finished early', async () => {
    const bayId = await floor.bay();
    const [work, next, later] = [await floor.work(), await floor.work(), await floor.work()];
    shop.clock.set(new Date(at('09:00', '2026-04-03')));
    const made = (await assign(wish(work, bayId, bram, '09:00', '12:00', '2026-04-03')).expect(201)).body;
    await shop.technician.post(`/work-orders/${work.workOrderId}/claims`).expect(201);
    await shop.sql(
      `insert into clock_entries (shop_id, id, technician_id, kind, work_order_id, started_at, recorded_by)
       values ($1, $2, $3, 'work', $4, $5, $3)`,
      [shop.shopId, randomUUID(), bram, work.workOrderId, shop.clock.now()],
    );
    const path = `/assignments/${made.id}`;
    const still = await shop.frontDesk.patch(path, { startsAt: at('09:30', '2026-04-03') }, 1).expect(409);
    expect(still.body).toMatchObject({ code: 'work-order-state', state: 'on-the-clock' });
    await shop.frontDesk.delete(path, undefined, { 'if-match': '"1"' }).expect(409);
    await shop.frontDesk.patch(path, { endsAt: at('12:30', '2026-04-03') }, 1).expect(200);
    await assign(wish(next, bayId, saffi, '10:00', '11:00', '2026-04-03')).expect(409);
    shop.clock.passMinutes(60);
    await shop.technician.post(`/work-orders/${work.workOrderId}/finish`).expect(200);
    await assign(wish(next, bayId, saffi, '10:00', '11:00', '2026-04-03')).expect(201);
    const over = await shop.frontDesk.patch(path, { endsAt: at('10:00', '2026-04-03') }, '3').expect(409);
    expect(over.body.code).toBe('work-order-state');
    expect((await assign(wish(work, bayId)).expect(409)).body.code).toBe('work-order-state');
    const place = (await assign(wish(later, bayId, saffi, '11:00', '12:00', '2026-04-03')).expect(201)).body;
    await floor.decide(later.repairOrderId, later.lineId, 'declined');
    await floor.withdraw(later.lineId);
    await shop.frontDesk.patch(`/assignments/${place.id}`, {}, 1).expect(404);
    await assign(wish(await floor.work(), bayId, saffi, '11:00', '12:00', '2026-04-03')).expect(201);
  });

  it('refuses what makes no sense, field by field, and what belongs to others', async () => {
    const bayId = await floor.bay();
    const work = await floor.work();
    const bad = await assign({
      ...wish(work, 'bay 1'),
      startsAt: 'nine',
      endsAt: '2026-02-30T10:00:00Z',
    }).expect(422);
    expect(bad.body.fields.map((f: { pointer: string }) => f.pointer).sort()).toEqual([
      '/bayId',
      '/endsAt',
      '/startsAt',
    ]);
    const reversed = await assign(wish(work, bayId, bram, '11:00', '11:00')).expect(422);
    expect(reversed.body).toMatchObject({ code: 'period-not-valid', fields: [{ pointer: '/endsAt' }] });
    await assign({ ...wish(work, bayId), endsAt: at('09:01', '2026-04-11') }).expect(422);
    await assign({ ...wish(work, bayId), workOrderId: randomUUID() }).expect(404);
    expect((await assign(wish(work, randomUUID())).expect(404)).body.fields[0].pointer).toBe('/bayId');
    expect((await assign(wish(work, bayId, shop.frontDesk.staffId)).expect(404)).body.fields[0].pointer).toBe(
      '/technicianId',
    );
    await shop.technician.post('/assignments', wish(work, bayId)).expect(403);
    const day = '2026-05-05';
    const made = (await assign(wish(work, bayId, bram, '09:00', '10:00', day)).expect(201)).body;
    const stranger = await (await shop.addShop('far-yard')).person('manager');
    await stranger.post('/assignments', wish(work, bayId)).expect(404);
    await stranger.patch(`/assignments/${made.id}`, {}, 1).expect(404);
    await stranger.delete(`/assignments/${made.id}`, undefined, { 'if-match': '"1"' }).expect(404);
    const foreign = new FloorBuilder(shop, (await shop.addShop('third-yard')).shopId);
    await assign(wish(await floor.work(), await foreign.bay())).expect(404);
  });
});
