import { FloorBuilder } from '../builders/floor.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

// The shop's clock says 4:00 on Wednesday 11 March 2026 in New York; daylight saving time began on 8 March.
const at = (time: string, day = '2026-03-16'): string => `${day}T${time}:00-04:00`;
const utc = (time: string, day?: string): string => new Date(at(time, day)).toISOString();
const NOBODY = '0198a000-0000-7000-8000-000000000000';
const MARCH = '?from=2026-03-01&to=2026-03-31';

interface Body {
  fields: { pointer: string }[];
}
const pointers = (body: unknown): string[] => (body as Body).fields.map(({ pointer }) => pointer);
const version = (number: number): Record<string, string> => ({ 'if-match': `"${number}"` });

describe('the manager keeps the calendar', () => {
  let shop: ShopUnderTest;
  let floor: FloorBuilder;
  let bram: string;
  let saffi: string;
  let bayId: string;
  let toolId: string;
  beforeAll(async () => {
    shop = await shopUnderTest();
    floor = new FloorBuilder(shop);
    bram = shop.technician.staffId;
    saffi = shop.secondTechnician.staffId;
    bayId = await floor.bay();
    toolId = await floor.tool(2, 'engine support bar');
    for (const weekday of [1, 2, 3, 4, 5]) await floor.shift(bram, weekday, 480, 1020, [720, 750]);
  });
  afterAll(async () => {
    await shop.stop();
  });

  const assign = async (
    from: string,
    to: string,
    technicianId = bram,
    bay = bayId,
    toolIds: string[] = [],
  ) => {
    const { workOrderId } = await floor.work({ toolIds });
    return shop.frontDesk.post('/assignments', {
      workOrderId,
      bayId: bay,
      technicianId,
      startsAt: from,
      endsAt: to,
    });
  };
  describe('days on which the shop is closed', () => {
    it('closes a day once, by its name, and opens it again', async () => {
      const day = { day: '2026-03-17', name: 'Founders day' };
      expect((await shop.manager.post('/closed-days', day).expect(201)).body).toEqual(day);
      const twice = await shop.manager.post('/closed-days', { ...day, name: 'Again' }).expect(409);
      expect(twice.body).toMatchObject({ code: 'day-closed-already', fields: [{ pointer: '/day' }] });
      await shop.manager.post('/closed-days', { day: '2026-04-06', name: 'Stock taking' }).expect(201);
      const list = await shop.technician.get(`/closed-days${MARCH}`).expect(200);
      expect(list.body).toEqual({ items: [day] });
      await shop.manager.delete('/closed-days/2026-04-06').expect(204);
      await shop.manager.delete('/closed-days/2026-04-06').expect(404);
    });

    it('warns of work that is planned on it, and of none on the day after', async () => {
      const closed = await assign(at('09:00', '2026-03-17'), at('10:00', '2026-03-17'));
      expect(closed.body.warnings).toMatchObject([{ code: 'outside-shift' }]);
      const open = await assign(at('09:00', '2026-03-18'), at('10:00', '2026-03-18'));
      expect(open.body.warnings).toEqual([]);
      // Nobody has said when Saffi works; that the shop is closed is known all the same.
      const saffiToo = await assign(at('11:00', '2026-03-17'), at('12:00', '2026-03-17'), saffi);
      expect(saffiToo.body.warnings).toMatchObject([{ code: 'outside-shift' }]);
    });

    it('is for managers; what makes no sense is named', async () => {
      await shop.frontDesk.post('/closed-days', { day: '2026-03-20', name: 'x' }).expect(403);
      await shop.technician.delete('/closed-days/2026-03-17').expect(403);
      const bad = await shop.manager.post('/closed-days', { day: '2026-02-30', name: '' }).expect(422);
      expect(pointers(bad.body).sort()).toEqual(['/day', '/name']);
      expect(pointers((await shop.manager.delete('/closed-days/soon').expect(422)).body)).toEqual(['/day']);
      const list = (query: string) => shop.manager.get(`/closed-days${query}`).expect(422);
      expect(pointers((await list('?from=2026-03-02&to=2026-03-01')).body)).toEqual(['/to']);
      expect(pointers((await list('?from=2026-03-02')).body)).toEqual(['/to']);
      expect(pointers((await list('?from=2020-03-02&to=2026-03-02')).body)).toEqual(['/to']);
    });
  });

  describe('people who are away', () => {
    it('records an absence and names what is planned for them in that time', async () => {
      const planned = (await assign(at('13:00'), at('14:00'))).body;
      const made = await shop.frontDesk
        .post(`/technicians/${bram}/absences`, {
          startsAt: at('12:00'),
          endsAt: at('10:00', '2026-03-18'),
          reason: 'Course',
        })
        .expect(201);
      expect(made.body).toMatchObject({
        technicianId: bram,
        technicianName: 'Bram',
        startsAt: utc('12:00'),
        endsAt: utc('10:00', '2026-03-18'),
        reason: 'Course',
        recordedBy: 'Wenna',
        recordedAt: shop.clock.now().toISOString(),
        version: 1,
      });
      expect(made.headers['etag']).toBe('"1"');
      expect(made.body.planned.map((p: { workOrderNumber: number }) => p.workOrderNumber)).toContain(
        planned.workOrderNumber,
      );
      const list = await shop.technician.get(`/technicians/${bram}/absences${MARCH}`).expect(200);
      expect(list.body.items).toEqual([made.body]);
      const other = await shop.technician.get(`/technicians/${bram}/absences?from=2026-03-19&to=2026-03-31`);
      expect(other.body.items).toEqual([]);
      const warned = await assign(at('14:30'), at('15:00'));
      expect(warned.body.warnings).toMatchObject([{ code: 'outside-shift' }]);
    });

    it('keeps absences of one person apart; back to back is no overlap', async () => {
      const record = (from: string, to: string, person = bram) =>
        shop.manager.post(`/technicians/${person}/absences`, { startsAt: from, endsAt: to });
      const twice = await record(at('09:59', '2026-03-18'), at('12:00', '2026-03-18')).expect(409);
      expect(twice.body).toMatchObject({ code: 'away-already', absence: { startsAt: utc('12:00') } });
      await record(at('09:59', '2026-03-18'), at('12:00', '2026-03-18'), saffi).expect(201);
      const next = await record(at('10:00', '2026-03-18'), at('11:00', '2026-03-18')).expect(201);
      expect(next.body.reason).toBeNull();
      const path = `/technicians/${bram}/absences/${next.body.id}`;
      await shop.manager.delete(path).expect(428);
      await shop.manager.delete(path, undefined, version(2)).expect(412);
      await shop.manager.delete(path, undefined, version(1)).expect(204);
      await shop.manager.delete(path, undefined, version(2)).expect(404);
      await record(at('10:00', '2026-03-18'), at('10:30', '2026-03-18')).expect(201);
    });

    it('lets them come back early on the version that was read, and not before they went', async () => {
      const [first] = (await shop.manager.get(`/technicians/${bram}/absences${MARCH}`)).body.items;
      const path = `/technicians/${bram}/absences/${first.id}`;
      const earlier = { endsAt: at('12:00', '2026-03-17'), reason: null };
      await shop.manager.patch(path, earlier, 7).expect(412);
      const changed = await shop.manager.patch(path, earlier, 1).expect(200);
      expect(changed.body).toMatchObject({ endsAt: utc('12:00', '2026-03-17'), reason: null, version: 2 });
      const never = await shop.manager.patch(path, { endsAt: at('12:00') }, 2).expect(422);
      expect(never.body).toMatchObject({ code: 'period-not-valid', fields: [{ pointer: '/endsAt' }] });
      await shop.manager.patch(path, { endsAt: at('10:01', '2026-03-18') }, 2).expect(409);
      await shop.manager.patch(`/technicians/${saffi}/absences/${first.id}`, {}, 2).expect(404);
    });

    it('is told what is wrong, and lets no technician write', async () => {
      const away = { startsAt: at('08:00'), endsAt: at('08:00') };
      const path = `/technicians/${saffi}/absences`;
      expect(pointers((await shop.manager.post(path, away).expect(422)).body)).toEqual(['/endsAt']);
      const long = { ...away, endsAt: at('08:00', '2029-03-16') };
      expect((await shop.manager.post(path, long).expect(422)).body.code).toBe('period-not-valid');
      const shape = { startsAt: 'monday', endsAt: '2026-03-16', until: 1 };
      expect(pointers((await shop.manager.post(path, shape).expect(422)).body).sort()).toEqual([
        '/endsAt',
        '/startsAt',
        '/until',
      ]);
      const good = { ...away, endsAt: at('09:00') };
      await shop.technician.post(path, good).expect(403);
      await shop.manager.post(`/technicians/${NOBODY}/absences`, good).expect(404);
      await shop.manager.post(`/technicians/${shop.frontDesk.staffId}/absences`, good).expect(404);
      await shop.manager.get(`/technicians/${NOBODY}/absences${MARCH}`).expect(404);
      const stranger = await (await shop.addShop('far-yard')).person('manager');
      await stranger.post(path, good).expect(404);
      expect((await stranger.get(`/calendar${MARCH}`)).body).toMatchObject({ absences: [], closedDays: [] });
    });
  });

  describe('bays and tools that are out of service', () => {
    it('takes a lift out from now on, nobody knows until when, and puts it back', async () => {
      const lift = await floor.bay();
      const later = (await assign(at('09:00'), at('10:00'), saffi, lift)).body;
      const out = await shop.frontDesk.post(`/bays/${lift}/closures`, { reason: 'Cable frayed' }).expect(201);
      expect(out.body).toMatchObject({
        bayId: lift,
        startsAt: shop.clock.now().toISOString(),
        endsAt: null,
        endedAt: null,
        reason: 'Cable frayed',
        planned: [{ workOrderNumber: later.workOrderNumber, startsAt: later.startsAt }],
        version: 1,
      });
      const refused = (await assign(at('09:00', '2026-06-01'), at('10:00', '2026-06-01'), saffi, lift)).body;
      expect(refused).toMatchObject({ code: 'bay-out-of-service', closure: { reason: 'Cable frayed' } });
      const again = await shop.frontDesk.post(`/bays/${lift}/closures`, { reason: 'Oil leak' }).expect(409);
      expect(again.body).toMatchObject({ code: 'out-of-service-already', closure: { endsAt: null } });
      const path = `/bays/${lift}/closures/${out.body.id}`;
      const expected = await shop.manager.patch(path, { endsAt: at('12:00') }, 1).expect(200);
      expect(expected.body).toMatchObject({ endsAt: utc('12:00'), endedAt: null, version: 2 });
      expect((await assign(at('11:59'), at('12:30'), saffi, lift)).status).toBe(409);
      expect((await assign(at('12:00'), at('12:30'), saffi, lift)).status).toBe(201);
      shop.clock.passMinutes(60);
      const back = await shop.manager.patch(path, { isBackInService: true }, 2).expect(200);
      expect(back.body).toMatchObject({ endedAt: shop.clock.now().toISOString(), endsAt: utc('12:00') });
      expect((await assign(at('11:00'), at('12:00'), saffi, lift)).status).toBe(201);
      const over = await shop.manager.patch(path, { isBackInService: true }, 3).expect(409);
      expect(over.body.code).toBe('closure-over');
      await shop.manager.patch(path, { endsAt: null }, 3).expect(409);
    });

    it('calls off what has not begun: it was never in the way', async () => {
      const lift = await floor.bay();
      const plan = { startsAt: at('08:00'), endsAt: at('12:00'), reason: 'Yearly inspection' };
      const out = (await shop.manager.post(`/bays/${lift}/closures`, plan).expect(201)).body;
      const path = `/bays/${lift}/closures/${out.id}`;
      const both = await shop.manager.patch(path, { isBackInService: true, endsAt: null }, 1).expect(422);
      expect(pointers(both.body)).toEqual(['/endsAt']);
      await shop.manager.patch(path, { isBackInService: true }, 1).expect(200);
      expect((await shop.manager.get(`/bays/${lift}/closures${MARCH}`).expect(200)).body.items).toEqual([]);
      await shop.manager.post(`/bays/${lift}/closures`, plan).expect(201);
      const [listed] = (await shop.technician.get(`/bays/${lift}/closures${MARCH}`).expect(200)).body.items;
      expect(listed).toMatchObject({ startsAt: utc('08:00'), endsAt: utc('12:00'), reason: plan.reason });
    });

    it('takes one unit of a tool out and gives work the other one', async () => {
      const path = `/special-tools/${toolId}/closures`;
      const lent = { unit: 1, startsAt: at('08:00'), endsAt: at('12:00'), reason: 'Lent to a neighbour' };
      const out = await shop.frontDesk.post(path, lent).expect(201);
      expect(out.body).toMatchObject({ toolName: 'engine support bar', unit: 1, endedAt: null, version: 1 });
      await shop.frontDesk.post(path, { ...lent, reason: 'Twice' }).expect(409);
      const none = await shop.frontDesk.post(path, { ...lent, unit: 3 }).expect(422);
      expect(pointers(none.body)).toEqual(['/unit']);
      const bays = [await floor.bay(), await floor.bay()];
      const first = await assign(at('08:00'), at('09:00'), saffi, bays[0], [toolId]);
      expect(first.body.tools).toMatchObject([{ unit: 2 }]);
      const third = await shop.addPerson('technician', 'Piet');
      const second = await assign(at('08:00'), at('09:00'), third.staffId, bays[1], [toolId]);
      expect(second.body).toMatchObject({ code: 'tool-taken', closure: { reason: lent.reason } });
      const change = `${path}/${out.body.id}`;
      await shop.frontDesk.patch(change, { isBackInService: true }, 1).expect(200);
      const freed = await assign(at('08:00'), at('09:00'), third.staffId, bays[1], [toolId]);
      expect(freed.body.tools).toMatchObject([{ unit: 1 }]);
      expect((await shop.manager.get(`${path}${MARCH}`).expect(200)).body.items).toEqual([]);
    });

    it('is told what is wrong, lets no technician write and knows nothing of others', async () => {
      const path = `/bays/${bayId}/closures`;
      const reversed = { startsAt: at('09:00'), endsAt: at('08:00'), reason: 'x' };
      expect(pointers((await shop.manager.post(path, reversed).expect(422)).body)).toEqual(['/endsAt']);
      expect(pointers((await shop.manager.post(path, { startsAt: 'now' }).expect(422)).body).sort()).toEqual([
        '/reason',
        '/startsAt',
      ]);
      await shop.technician.post(path, { reason: 'x' }).expect(403);
      await shop.manager.post(`/bays/${NOBODY}/closures`, { reason: 'x' }).expect(404);
      await shop.manager.post(`/special-tools/${NOBODY}/closures`, { reason: 'x', unit: 1 }).expect(404);
      await shop.manager.patch(`${path}/${NOBODY}`, {}, 1).expect(404);
      await shop.manager.patch(`/special-tools/${toolId}/closures/${NOBODY}`, {}, 1).expect(404);
      await shop.manager.get(`/bays/${NOBODY}/closures${MARCH}`).expect(404);
      await shop.manager.get(`/special-tools/${NOBODY}/closures${MARCH}`).expect(404);
      const key = { 'idempotency-key': '"closure-1"' };
      const once = await shop.manager.post(
        path,
        { startsAt: at('06:00'), endsAt: at('07:00'), reason: 'x' },
        key,
      );
      const twice = await shop.manager.post(
        path,
        { startsAt: at('06:00'), endsAt: at('07:00'), reason: 'x' },
        key,
      );
      expect([once.status, twice.status, twice.body]).toEqual([201, 201, once.body]);
    });

    it('lets one of two who record the same at once win, and tells the other', async () => {
      const lift = await floor.bay();
      const closures = await Promise.all(
        Array.from({ length: 6 }, () =>
          shop.manager.post(`/bays/${lift}/closures`, { reason: 'Flat tyre of a jack' }),
        ),
      );
      expect(closures.map(({ status }) => status).sort()).toEqual([201, 409, 409, 409, 409, 409]);
      const away = { startsAt: at('08:00', '2026-03-27'), endsAt: at('09:00', '2026-03-27') };
      const absences = await Promise.all(
        Array.from({ length: 6 }, () => shop.manager.post(`/technicians/${saffi}/absences`, away)),
      );
      expect(absences.map(({ status }) => status).sort()).toEqual([201, 409, 409, 409, 409, 409]);
      const days = await Promise.all(
        Array.from({ length: 6 }, () =>
          shop.manager.post('/closed-days', { day: '2026-03-30', name: 'Move' }),
        ),
      );
      expect(days.map(({ body }) => body.code ?? 'closed').sort()).toEqual([
        'closed',
        ...Array<string>(5).fill('day-closed-already'),
      ]);
    });

    it('tells the screens that watch', async () => {
      const rows = await shop.sql<{ subjects: Record<string, string> }>(
        `select subjects from live_events where shop_id = $1 and kind = 'calendar'`,
        [shop.shopId],
      );
      const keys = new Set(rows.flatMap(({ subjects }) => Object.keys(subjects)));
      expect([...keys].sort()).toEqual(['absenceId', 'bayId', 'closureId', 'day', 'technicianId', 'toolId']);
    });
  });
});
