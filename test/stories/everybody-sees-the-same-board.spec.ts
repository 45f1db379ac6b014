import { FloorBuilder } from '../builders/floor.js';
import { LiveReader } from '../support/live-reader.js';
import { shopUnderTest, type Person, type ShopUnderTest } from '../support/shop-under-test.js';

const at = (time: string, day = '2026-03-11'): string => new Date(`${day}T${time}:00-04:00`).toISOString();

describe('everybody sees the same board', () => {
  let shop: ShopUnderTest;
  let floor: FloorBuilder;
  beforeAll(async () => {
    shop = await shopUnderTest({ now: at('09:00') });
    floor = new FloorBuilder(shop);
  });
  afterAll(async () => {
    await shop.stop();
  });
  const board = async (day?: string, who: Person = shop.frontDesk) =>
    (await who.get(`/board${day ? `?day=${day}` : ''}`).expect(200)).body;
  const numbers = (body: { tickets: { workOrderNumber: number }[] }): number[] =>
    body.tickets.map(({ workOrderNumber }) => workOrderNumber);

  it('shows bays, people and every work order that is not checked, with its place, holder, holds and cautions', async () => {
    await floor.bay({ kind: 'flat' });
    const bayId = await floor.bay();
    await floor.skill(shop.technician.staffId, 'brakes');
    await floor.skill(shop.technician.staffId, '609', '2026-03-10');
    const order = await floor.repairOrder({ drivetrain: 'hybrid', promisedAt: at('17:00') });
    const planned = await floor.work({ title: 'Front brakes', hundredths: 180, needsLift: true }, order);
    const held = await floor.work({
      title: 'Rear struts',
      items: [{ name: 'strut', expectedAt: at('15:00') }],
    });
    await shop.sql(
      `insert into findings (shop_id, id, repair_order_id, vehicle_id, title, verdict, may_drive, found_by, found_at, version)
       select shop_id, gen_random_uuid(), id, vehicle_id, 'Brake line rusted through', 'repair', 'no', opened_by, now(), 1
         from repair_orders where id = $1`,
      [order],
    );
    const place = {
      bayId,
      technicianId: shop.technician.staffId,
      startsAt: at('08:30'),
      endsAt: at('10:30'),
    };
    const assigned = (
      await shop.frontDesk.post('/assignments', { workOrderId: planned.workOrderId, ...place }).expect(201)
    ).body;
    await shop.technician.post('/clock/on', { workOrderId: planned.workOrderId }).expect(201);
    shop.clock.passMinutes(10);
    const body = await board();
    expect(body).toMatchObject({
      day: '2026-03-11',
      timeZone: 'America/New_York',
      now: at('09:10'),
      dayStartsAt: at('07:00'),
      dayEndsAt: at('18:00'),
      bays: [
        { kind: 'flat', clockedOn: [] },
        {
          id: bayId,
          kind: 'lift',
          liftKind: 'two-post',
          capacityKg: 3500,
          outOfServiceReason: null,
          clockedOn: [
            { technicianId: shop.technician.staffId, displayName: 'Bram', workOrderId: planned.workOrderId },
          ],
        },
      ],
      technicians: [
        { id: shop.technician.staffId, displayName: 'Bram', skills: ['brakes'] },
        { id: shop.secondTechnician.staffId, displayName: 'Saffi', skills: [] },
      ],
    });
    expect(body.tickets).toHaveLength(2);
    expect(body.tickets[0]).toEqual({
      workOrderId: planned.workOrderId,
      workOrderNumber: planned.number,
      repairOrderId: order,
      repairOrderNumber: expect.any(Number),
      title: 'Front brakes',
      vehicle: { label: 'Tarn Vale 1998', plate: expect.stringMatching(/^KY /) },
      bookHundredths: 180,
      clockedSeconds: 600,
      state: 'on-the-clock',
      holds: [],
      canStart: false,
      claim: { technicianId: shop.technician.staffId, displayName: 'Bram', claimedAt: at('09:00') },
      assignment: { ...place, id: assigned.id, version: 1, technicianName: 'Bram' },
      unsafe: true,
      cautions: expect.arrayContaining([
        expect.stringContaining('High voltage'),
        expect.stringContaining('no road test'),
      ]),
      promisedAt: at('17:00'),
    });
    expect(body.tickets[1]).toMatchObject({
      workOrderId: held.workOrderId,
      state: 'released',
      canStart: false,
      holds: [{ kind: 'parts', until: at('15:00') }],
      unsafe: false,
      assignment: null,
      claim: null,
    });
    expect(Number(body.lastEventId)).toBeGreaterThan(0);
    expect((await board(undefined, shop.technician)).tickets).toHaveLength(2);
  });

  it('a bay is taken by the car that stands in it, not for that car itself, and free again when the work is done', async () => {
    const waiting = await floor.work({ needsLift: true });
    const [running] = (await board()).tickets;
    const mine = async () =>
      (await board()).tickets.find((t: { workOrderId: string }) => t.workOrderId === waiting.workOrderId);
    expect((await mine()).holds).toMatchObject([{ kind: 'bay', until: at('10:30') }]);
    const sameCar = await floor.work({ needsLift: true }, running.repairOrderId);
    const sibling = (await board()).tickets.find(
      (t: { workOrderId: string }) => t.workOrderId === sameCar.workOrderId,
    );
    expect(sibling).toMatchObject({ holds: [], canStart: true });
    shop.clock.passMinutes(110);
    // Past its time on the plan and still on the clock: nobody knows when.
    expect((await mine()).holds).toMatchObject([{ kind: 'bay' }]);
    expect((await mine()).holds[0]).not.toHaveProperty('until');
    await shop.technician.post(`/work-orders/${running.workOrderId}/finish`).expect(200);
    expect(await mine()).toMatchObject({ holds: [], canStart: true });
    expect((await board()).tickets[0]).toMatchObject({ state: 'finished', holds: [], canStart: false });
  });

  it('keeps what is checked only on the day of its place, and carries the rest on', async () => {
    const [done] = (await board()).tickets;
    await shop.secondTechnician.post(`/work-orders/${done.workOrderId}/check`, { passed: true }).expect(200);
    const here = await board('2026-03-11');
    const tomorrow = await board('2026-03-12');
    expect(numbers(here)).toContain(done.workOrderNumber);
    expect(numbers(tomorrow)).toEqual(numbers(here).filter((n) => n !== done.workOrderNumber));
    const fixed = here.tickets.filter(
      (t: { repairOrderId: string }) => t.repairOrderId === done.repairOrderId,
    );
    // The finding stays open: no line that answers it is done.
    expect(fixed.every((t: { unsafe: boolean }) => t.unsafe)).toBe(true);
  });

  it('knows that two days a year are longer and shorter', async () => {
    expect(await board('2026-03-08')).toMatchObject({
      dayStartsAt: '2026-03-08T11:00:00.000Z',
      dayEndsAt: '2026-03-08T22:00:00.000Z',
    });
    expect(await board('2026-11-01')).toMatchObject({ dayStartsAt: '2026-11-01T12:00:00.000Z' });
    const bayId = await floor.bay();
    const late = await floor.work();
    const place = { workOrderId: late.workOrderId, bayId, technicianId: shop.technician.staffId };
    // The last of the 25 hours of 1 November ends at 05:00 UTC on the 2nd.
    await shop.frontDesk
      .post('/assignments', { ...place, startsAt: '2026-11-02T04:30:00Z', endsAt: '2026-11-02T05:00:00Z' })
      .expect(201);
    await shop.technician.post('/clock/on', { workOrderId: late.workOrderId }).expect(201);
    await shop.technician.post(`/work-orders/${late.workOrderId}/finish`).expect(200);
    expect(numbers(await board('2026-11-01'))).toContain(late.number);
    // Finished long before its time, it gave its place up; put back here, because the edge of the day is what matters.
    await shop.sql(`update assignments set cancelled_at = null where work_order_id = $1`, [late.workOrderId]);
    await shop.secondTechnician.post(`/work-orders/${late.workOrderId}/check`, { passed: true }).expect(200);
    expect(numbers(await board('2026-11-01'))).toContain(late.number);
    expect(numbers(await board('2026-11-02'))).not.toContain(late.number);
    expect((await shop.frontDesk.get('/board?day=2026-02-30').expect(422)).body.fields[0].pointer).toBe(
      '/day',
    );
    await shop.frontDesk.get('/board?day=today').expect(422);
    await shop.frontDesk.get('/board?week=1').expect(422);
  });

  it('tells a watching page of a claim at once, and only the pages of this shop', async () => {
    const stranger = await (await shop.addShop('other-yard')).person('manager');
    const { lastEventId } = await board();
    const page = await LiveReader.open(shop.url, shop.frontDesk, lastEventId);
    const abroad = await LiveReader.open(shop.url, stranger);
    const { workOrderId } = await floor.work();
    await page.until(() => page.changes.length === 1);
    expect(page.changes[0]?.data).toMatchObject({ kind: 'work-order', subjects: { workOrderId } });
    const took = page.until(() => page.changes.some(({ data }) => data.kind === 'claim'));
    await shop.technician.post(`/work-orders/${workOrderId}/claims`).expect(201);
    expect(await took).toBeLessThan(3000); // from before the request until the page has it; far less on a machine that is not busy
    expect(page.changes.at(-1)?.data).toMatchObject({ kind: 'claim', subjects: { workOrderId } });
    await stranger.post('/bays', { number: 1, name: 'Far', kind: 'flat' }).expect(201);
    await abroad.until(() => abroad.changes.length === 1);
    expect(abroad.changes.map(({ data }) => data.kind)).toEqual(['bay']);
    await shop.technician.delete(`/work-orders/${workOrderId}/claims/current`).expect(204);
    await page.until(() => page.changes.length === 3);
    expect(page.changes.map(({ data }) => data.kind)).toEqual(['work-order', 'claim', 'claim']);
    expect(abroad.changes).toHaveLength(1);
    page.close();
    abroad.close();
  });

  it('a page that was away gets exactly what it missed, in order, however many write at once', async () => {
    const works = [];
    for (let n = 0; n < 50; n += 1) works.push(await floor.work());
    const people = await Promise.all(works.map((_, n) => shop.addPerson('technician', `Person ${n}`)));
    const before = (await board()).lastEventId as string;
    const watching = await LiveReader.open(shop.url, shop.frontDesk, before);
    const claims = works.map(async ({ workOrderId }, n) =>
      people[n]?.post(`/work-orders/${workOrderId}/claims`).expect(201),
    );
    // Leaves in the middle of it, and comes back with the last id that it saw.
    await watching.until(() => watching.changes.length >= 10);
    watching.close();
    const seen = watching.changes.map(({ id }) => id);
    await Promise.all(claims);
    const back = await LiveReader.open(shop.url, shop.frontDesk, seen.at(-1));
    await back.until(() => back.changes.length + seen.length >= 50);
    const stored = await shop.sql<{ id: string }>(
      'select id::text from live_events where shop_id = $1 and id > $2 order by live_events.id',
      [shop.shopId, before],
    );
    expect([...seen, ...back.changes.map(({ id }) => id)]).toEqual(stored.map(({ id }) => id));
    expect(stored).toHaveLength(50);
    expect(new Set(back.changes.map(({ data }) => data.kind))).toEqual(new Set(['claim']));
    back.close();
  });
});
