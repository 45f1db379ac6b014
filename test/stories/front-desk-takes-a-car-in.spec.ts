import { aCar, aSoldLine, aStay, aTemplate, aWorkOrder, type Car } from '../support/cars.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

const pointers = (body: unknown): string[] =>
  (body as { fields: { pointer: string }[] }).fields.map((f) => f.pointer);
const NOBODY = '0198a000-0000-7000-8000-000000000000';
const odometer = { reading: 148_210, unit: 'km' };

describe('the front desk takes a car in and gives it back', () => {
  let shop: ShopUnderTest;
  beforeAll(async () => {
    shop = await shopUnderTest();
  });
  afterAll(async () => {
    await shop.stop();
  });

  const intake = (car: Car): Record<string, unknown> => ({
    vehicleId: car.vehicleId,
    concern: 'It knocks on bumps',
    odometer,
    wantsPartsBack: true,
  });
  const stageOf = async (id: string): Promise<string> =>
    (await shop.technician.get(`/repair-orders/${id}`).expect(200)).body.stage as string;

  it('opens a repair order with the concern in the customer’s words and the odometer', async () => {
    const car = await aCar(shop, { plate: 'KY 1' });
    const promisedAt = '2026-03-12T17:00:00-04:00';
    const opened = await shop.frontDesk.post('/repair-orders', { ...intake(car), promisedAt }).expect(201);
    expect(opened.headers['etag']).toBe('"1"');
    expect(opened.body).toMatchObject({
      number: 1001,
      stage: 'dropped-off',
      concern: 'It knocks on bumps',
      vehicle: { id: car.vehicleId, plate: 'KY 1', make: 'Corvane', weightKg: 1420 },
      customer: { id: car.customerId, displayName: 'Ines Halloway', phone: '+12025550111' },
      odometerUnit: 'km',
      odometerIn: 148_210,
      odometerOut: null,
      wantsPartsBack: true,
      droppedOffAt: '2026-03-11T08:00:00.000Z',
      promisedAt: '2026-03-12T21:00:00.000Z',
      pickedUpAt: null,
      openedByName: 'Wenna',
      warnings: [],
      version: 1,
    });
    const read = await shop.technician.get(`/repair-orders/${opened.body.id}`).expect(200);
    expect(read.body).toEqual(opened.body);
    const readings = await shop.sql(
      'select reading, unit, occasion from odometer_readings where vehicle_id = $1',
      [car.vehicleId],
    );
    expect(readings).toEqual([{ reading: 148_210, unit: 'km', occasion: 'drop-off' }]);
  });

  it('is told the number when the car is here already, and so is the slower of two desks', async () => {
    const car = await aCar(shop);
    const both = await Promise.all([
      shop.frontDesk.post('/repair-orders', intake(car)),
      shop.manager.post('/repair-orders', intake(car)),
    ]);
    expect(both.map((r) => r.status).sort()).toEqual([201, 409]);
    const won = both.find((r) => r.status === 201)?.body;
    const lost = both.find((r) => r.status === 409)?.body;
    expect(lost).toMatchObject({
      code: 'vehicle-already-here',
      number: won.number,
      repairOrderId: won.id,
    });
    expect(lost.detail).toContain(String(won.number));
  });

  it('lets somebody else pay, somebody this shop knows', async () => {
    const car = await aCar(shop);
    const payer = await aCar(shop, { customer: 'Fleet of Eastmere' });
    const opened = await shop.frontDesk
      .post('/repair-orders', { ...intake(car), customerId: payer.customerId })
      .expect(201);
    expect(opened.body.customer.displayName).toBe('Fleet of Eastmere');
    const again = await aCar(shop);
    await shop.frontDesk.post('/repair-orders', { ...intake(again), customerId: NOBODY }).expect(404);
    await shop.frontDesk.post('/repair-orders', { ...intake(again), vehicleId: NOBODY }).expect(404);
    const elsewhere = await shop.addShop('far-yard');
    const foreign = await aCar(shop, { shopId: elsewhere.shopId });
    await shop.frontDesk.post('/repair-orders', intake(foreign)).expect(404);
  });

  it('looks twice at an odometer that reads less than before', async () => {
    const car = await aCar(shop);
    const stay = await aStay(shop, car, { reading: 90_000 });
    await shop.frontDesk
      .post(`/repair-orders/${stay.id}/pick-up`, { odometer: { reading: 90_004, unit: 'km' } })
      .expect(200);
    shop.clock.passMinutes(60);
    const less = { ...intake(car), odometer: { reading: 9_001, unit: 'km' } };
    const refused = await shop.frontDesk.post('/repair-orders', less).expect(422);
    expect(refused.body.code).toBe('odometer-went-back');
    expect(pointers(refused.body)).toEqual(['/odometer/reading']);
    expect(await shop.sql('select 1 from repair_orders where vehicle_id = $1', [car.vehicleId])).toHaveLength(
      1,
    );
    const sure = { ...less, odometer: { ...less.odometer, confirmed: true } };
    await shop.frontDesk.post('/repair-orders', sure).expect(201);
  });

  it('changes the promised time on the version that was read, and keeps what was promised before', async () => {
    const stay = await aStay(shop, await aCar(shop));
    const path = `/repair-orders/${stay.id}`;
    const moved = await shop.frontDesk.patch(path, { promisedAt: '2026-03-13T12:00:00Z' }, 1).expect(200);
    expect(moved.body).toMatchObject({ promisedAt: '2026-03-13T12:00:00.000Z', version: 2 });
    const stale = await shop.frontDesk.patch(path, { concern: 'other' }, 1).expect(412);
    expect(stale.body.currentVersion).toBe(2);
    await shop.frontDesk.patch(path, { promisedAt: null, concern: 'It also squeals' }, 2).expect(200);
    const audit = await shop.sql<{ detail: { before: { promisedAt: string | null } } }>(
      `select detail from audit_entries where subject_id = $1 and action = 'repair-order.change' order by id`,
      [stay.id],
    );
    expect(audit.map((a) => a.detail.before.promisedAt)).toEqual([null, '2026-03-13T12:00:00.000Z']);
    const past = await shop.frontDesk.patch(path, { promisedAt: '2026-03-01T12:00:00Z' }, 3).expect(422);
    expect(pointers(past.body)).toEqual(['/promisedAt']);
    await shop.frontDesk.patch(path, { customerId: NOBODY }, 3).expect(404);
    await shop.frontDesk.patch(`/repair-orders/${NOBODY}`, { concern: 'x' }, 1).expect(404);
  });

  it('shows where the car stands, as it follows from what happened', async () => {
    const stay = await aStay(shop, await aCar(shop));
    expect(await stageOf(stay.id)).toBe('dropped-off');
    const template = await aTemplate(shop, 'For the stages');
    const walk = await shop.technician
      .post(`/repair-orders/${stay.id}/inspections`, { templateId: template.id })
      .expect(201);
    expect(await stageOf(stay.id)).toBe('inspecting');
    await shop.sql(
      'update inspections set completed_at = started_at, completed_by = technician_id where id = $1',
      [walk.body.id],
    );
    expect(await stageOf(stay.id)).toBe('ready');
    const watched = { title: 'Tyres', verdict: 'watch', mayDrive: 'yes', lookAgainOn: '2026-09-01' };
    await shop.technician.post(`/repair-orders/${stay.id}/findings`, watched).expect(201);
    expect(await stageOf(stay.id)).toBe('ready');
    const found = await shop.technician
      .post(`/repair-orders/${stay.id}/findings`, { title: 'Pads', verdict: 'repair', mayDrive: 'yes' })
      .expect(201);
    expect(await stageOf(stay.id)).toBe('estimating');
    await aSoldLine(shop, stay.id, { findingId: found.body.id });
    expect(await stageOf(stay.id)).toBe('awaiting-decision');
    const work = await aWorkOrder(shop, stay.id);
    expect(await stageOf(stay.id)).toBe('on-the-floor');
    const one = await shop.technician.get(`/repair-orders/${stay.id}`).expect(200);
    expect(one.body.counts).toEqual({
      findings: 2,
      openFindings: 0,
      unsentLines: 0,
      undecidedLines: 1,
      decidedLines: 1,
      workOrders: 1,
      openWorkOrders: 1,
    });
    expect(one.body.inspections).toMatchObject([{ id: walk.body.id, templateName: 'For the stages' }]);
    const seen = await shop.technician.get(`/repair-orders/${stay.id}`, { 'if-none-match': '"1"' });
    expect(seen.status).toBe(200); // the version is the same, the stage is not
    expect(work.number).toBeGreaterThan(0);
  });

  it('keeps the car until agreed work is finished and checked, and says which is not', async () => {
    const stay = await aStay(shop, await aCar(shop));
    const pickUp = { odometer: { reading: 148_215, unit: 'km' } };
    const path = `/repair-orders/${stay.id}/pick-up`;
    const open = await aWorkOrder(shop, stay.id, { title: 'Brake hose' });
    const unchecked = await aWorkOrder(shop, stay.id, { title: 'Battery', at: 'finished' });
    await aWorkOrder(shop, stay.id, { title: 'Wipers', at: 'checked' });
    const refused = await shop.frontDesk.post(path, pickUp).expect(409);
    expect(refused.body).toMatchObject({
      code: 'repair-order-not-ready',
      workOrders: [
        { number: open.number, title: 'Brake hose', state: 'released' },
        { number: unchecked.number, title: 'Battery', state: 'finished' },
      ],
    });
    await shop.sql('update work_orders set withdrawn_at = released_at where id = $1', [open.workOrderId]);
    await shop.sql(
      'update work_orders set checked_at = finished_at, checked_by = finished_by where id = $1',
      [unchecked.workOrderId],
    );
    const gone = await shop.frontDesk.post(path, pickUp).expect(200);
    expect(gone.body).toMatchObject({ stage: 'picked-up', odometerOut: 148_215, version: 2 });
    const again = await shop.frontDesk.post(path, pickUp).expect(409);
    expect(again.body.code).toBe('repair-order-closed');
    await shop.frontDesk.patch(`/repair-orders/${stay.id}`, { concern: 'x' }, 2).expect(409);
    const late = { title: 'Pads', verdict: 'repair', mayDrive: 'yes' };
    await shop.technician.post(`/repair-orders/${stay.id}/findings`, late).expect(409);
  });

  it('repeats the warning when an unsafe car is fetched, and not for what was repaired', async () => {
    const stay = await aStay(shop, await aCar(shop));
    const record = async (title: string, mayDrive: string): Promise<string> =>
      (
        await shop.technician
          .post(`/repair-orders/${stay.id}/findings`, { title, verdict: 'repair', mayDrive })
          .expect(201)
      ).body.id as string;
    await record('Track rod end, front left', 'to-the-shop-only');
    const hose = await record('Brake hose, front left', 'no');
    const pads = await record('Brake pads, front', 'no');
    await aWorkOrder(shop, stay.id, { findingId: pads, at: 'checked' });
    await aSoldLine(shop, stay.id, { findingId: hose, answer: 'declined' });
    const gone = await shop.frontDesk.post(`/repair-orders/${stay.id}/pick-up`, { odometer }).expect(200);
    expect(gone.body.warnings.map((w: { warning: string }) => w.warning)).toEqual([
      'Unsafe: Brake hose, front left. This vehicle must not be driven with it.',
      'Repair: Track rod end, front left. This vehicle may be driven to the shop only, and no further.',
    ]);
    const [audit] = await shop.sql<{ detail: { warned: string[] } }>(
      `select detail from audit_entries where subject_id = $1 and action = 'repair-order.pick-up'`,
      [stay.id],
    );
    expect(audit?.detail.warned).toHaveLength(2);
    const page = await shop.frontDesk.get('/repair-orders?stage=picked-up').expect(200);
    expect(page.body.items.find((r: { id: string }) => r.id === stay.id).isUnsafe).toBe(true);
  });

  it('reads the odometer at pick-up in the same unit and no less', async () => {
    const stay = await aStay(shop, await aCar(shop));
    const path = `/repair-orders/${stay.id}/pick-up`;
    const less = await shop.frontDesk.post(path, { odometer: { reading: 148_209, unit: 'km' } }).expect(422);
    expect(less.body).toMatchObject({ code: 'odometer-went-back', earlier: 148_210 });
    expect(pointers(less.body)).toEqual(['/odometer/reading']);
    const miles = await shop.frontDesk.post(path, { odometer: { reading: 148_215, unit: 'mi' } }).expect(422);
    expect(pointers(miles.body)).toEqual(['/odometer/unit']);
    expect(await stageOf(stay.id)).toBe('dropped-off');
  });

  it('pages through the stays, the latest first, also those of one stage or one vehicle', async () => {
    const car = await aCar(shop);
    for (const minute of [1, 2, 3]) {
      shop.clock.passMinutes(minute);
      const stay = await aStay(shop, car);
      if (minute < 3)
        await shop.frontDesk.post(`/repair-orders/${stay.id}/pick-up`, { odometer }).expect(200);
    }
    const walk = async (filter: string, limit: number): Promise<number[]> => {
      const numbers: number[] = [];
      let cursor = '';
      for (;;) {
        const page = await shop.frontDesk.get(`/repair-orders?limit=${limit}${filter}${cursor}`).expect(200);
        numbers.push(...(page.body.items as { number: number }[]).map((r) => r.number));
        if (page.body.nextCursor === null) return numbers;
        cursor = `&cursor=${page.body.nextCursor as string}`;
      }
    };
    const all = await walk('', 2);
    expect(all).toEqual(await walk('', 200));
    expect(all).toHaveLength(new Set(all).size);
    const [stored] = await shop.sql<{ n: number }>(
      'select count(*)::int as n from repair_orders where shop_id = $1',
      [shop.shopId],
    );
    expect(all).toHaveLength(stored?.n ?? -1);
    const here = await walk('&here=yes', 3);
    const gone = await walk('&stage=picked-up', 1);
    expect([...here, ...gone].sort()).toEqual([...all].sort());
    expect(await walk('&here=no', 2)).toEqual(gone);
    expect(await walk('&stage=on-the-floor', 1)).toHaveLength(1);
    expect(await walk(`&vehicleId=${car.vehicleId}`, 2)).toEqual(all.filter((_n, at) => at < 3));
  });

  it.each<[string, string, string]>([
    ['an unknown stage', 'stage=waiting', '/stage'],
    ['a cursor of somebody else', `cursor=${Buffer.from('["x","y"]').toString('base64url')}`, '/cursor'],
    ['a vehicle that is no id', 'vehicleId=7', '/vehicleId'],
    ['a limit of too many', 'limit=201', '/limit'],
    ['a parameter that nobody knows', 'colour=red', '/colour'],
  ])('refuses a list with %s', async (_name, query, pointer) => {
    const bad = await shop.frontDesk.get(`/repair-orders?${query}`).expect(422);
    expect(pointers(bad.body)).toEqual([pointer]);
  });

  it('names every bad field of an intake, and takes nothing in', async () => {
    const bad = await shop.frontDesk
      .post('/repair-orders', {
        vehicleId: 'x',
        concern: ' ',
        odometer: { reading: -1, unit: 'furlong' },
        promisedAt: '2026-02-30T10:00:00Z',
        wantsPartsBack: 'yes',
        discount: 5,
      })
      .expect(422);
    expect(pointers(bad.body).sort()).toEqual([
      '/concern',
      '/discount',
      '/odometer/reading',
      '/odometer/unit',
      '/promisedAt',
      '/vehicleId',
      '/wantsPartsBack',
    ]);
    const car = await aCar(shop);
    for (const odometerBody of [null, [], 'x', 5]) {
      const wrong = await shop.frontDesk.post('/repair-orders', { ...intake(car), odometer: odometerBody });
      expect(wrong.status).toBe(422);
      expect(pointers(wrong.body)[0]).toBe('/odometer');
    }
    const past = { ...intake(car), promisedAt: '2026-03-11T07:00:00Z' };
    expect(pointers((await shop.frontDesk.post('/repair-orders', past).expect(422)).body)).toEqual([
      '/promisedAt',
    ]);
    expect(await shop.sql('select 1 from repair_orders where vehicle_id = $1', [car.vehicleId])).toEqual([]);
  });

  it('is the desk’s to do; a technician reads, another shop finds nothing', async () => {
    const stay = await aStay(shop, await aCar(shop));
    const car = await aCar(shop);
    await shop.technician.post('/repair-orders', intake(car)).expect(403);
    await shop.technician.post(`/repair-orders/${stay.id}/pick-up`, { odometer }).expect(403);
    await shop.technician.patch(`/repair-orders/${stay.id}`, { concern: 'x' }, 1).expect(403);
    const stranger = await (await shop.addShop('other-yard')).person('manager');
    await stranger.get(`/repair-orders/${stay.id}`).expect(404);
    await stranger.patch(`/repair-orders/${stay.id}`, { concern: 'x' }, 1).expect(404);
    await stranger.post(`/repair-orders/${stay.id}/pick-up`, { odometer }).expect(404);
    expect((await stranger.get('/repair-orders').expect(200)).body).toEqual({ items: [], nextCursor: null });
  });
});
