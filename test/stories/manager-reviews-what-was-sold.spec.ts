import { randomUUID } from 'node:crypto';
import { FloorBuilder, type LineWish, type MadeWork } from '../builders/floor.js';
import { shopUnderTest, type Person, type ShopUnderTest } from '../support/shop-under-test.js';

interface Compared {
  soldHundredths: number;
  soldSeconds: number;
  clockedSeconds: number;
  differenceSeconds: number;
  labourCents: number;
  partsCents: number;
}
interface Line {
  lineId: string;
  repairOrderId: string;
  comparison: Compared;
  technicians: { displayName: string; clockedSeconds: number; creditedHundredths: number }[];
}

const KEYS = [
  'soldHundredths',
  'soldSeconds',
  'clockedSeconds',
  'differenceSeconds',
  'labourCents',
  'partsCents',
] as const;
const total = (of: readonly { comparison: Compared }[]): Compared =>
  Object.fromEntries(
    KEYS.map((key) => [key, of.reduce((sum, one) => sum + one.comparison[key], 0)]),
  ) as unknown as Compared;
const only = (whole: Compared): Compared =>
  Object.fromEntries(KEYS.map((key) => [key, whole[key]])) as unknown as Compared;

describe('the manager reviews what was sold against what was clocked', () => {
  let shop: ShopUnderTest;
  let floor: FloorBuilder;
  let bram: Person;
  let saffi: Person;
  let order: string;
  beforeAll(async () => {
    shop = await shopUnderTest({ now: '2026-03-11T12:00:00Z' });
    floor = new FloorBuilder(shop);
    await floor.bay();
    [bram, saffi] = [shop.technician, shop.secondTechnician];
    order = await floor.repairOrder();
    for (const person of [bram, saffi]) await person.post('/attendance/in').expect(201);
  });
  afterAll(async () => {
    await shop.stop();
  });
  const review = async (path: string) => (await shop.manager.get(`/review/${path}`).expect(200)).body;
  const days = 'from=2026-03-11&to=2026-03-11';
  const clock = async (
    person: Person,
    work: MadeWork,
    minutes: number,
    then: 'off' | 'finish',
  ): Promise<void> => {
    await person.post('/clock/on', { workOrderId: work.workOrderId }).expect(201);
    shop.clock.passMinutes(minutes);
    if (then === 'off') await person.post('/clock/off').expect(200);
    else await person.post(`/work-orders/${work.workOrderId}/finish`).expect(200);
  };
  const line = (wish: LineWish) => floor.work({ taxCents: 100, ...wish }, order);

  it('a one-hour job done in 48 minutes stands at 1.25, with numerator and denominator named', async () => {
    // AM (am-online.com), 30 July 2004: 125 % means a 1 h job done in 48 min.
    const work = await line({ hundredths: 100, labourCents: 12950, partsCents: 4500 });
    await clock(bram, work, 48, 'finish');
    const before = await review(`repair-orders/${order}`);
    expect(before).toMatchObject({ authorisedCents: 17550, invoiceableCents: 0, everythingDone: false });
    await saffi.post(`/work-orders/${work.workOrderId}/check`, { passed: true }).expect(200);
    const body = await review(`repair-orders/${order}`);
    expect(body).toMatchObject({
      authorisedCents: 17550,
      invoiceableCents: 17550,
      everythingDone: true,
      undecidedLines: 0,
    });
    expect(body.lines).toHaveLength(1);
    expect(body.lines[0].comparison).toMatchObject({
      soldHundredths: 100,
      soldSeconds: 3600,
      clockedSeconds: 2880,
      differenceSeconds: 720,
      labourCents: 12950,
      partsCents: 4500,
      soldPerClocked: {
        label: 'book hours sold ÷ hours clocked on them',
        numerator: 3600,
        denominator: 2880,
        ppm: 1_250_000,
      },
    });
  });

  it('shares a line of two technicians by their time and adds up in every view; corrected time counts once', async () => {
    const shared = await line({ hundredths: 251, labourCents: 32505, partsCents: 101 });
    await clock(bram, shared, 60, 'off');
    await bram.delete(`/work-orders/${shared.workOrderId}/claims/current`).expect(204);
    await clock(saffi, shared, 20, 'finish');
    const late = await line({ hundredths: 70 });
    await clock(saffi, late, 50, 'finish');
    // Somebody corrects the last entry to half its time: only the new one counts.
    const [entry] = (await shop.manager.get(`/clock/entries?technicianId=${saffi.staffId}&limit=1`)).body
      .items;
    await shop.manager
      .post(`/clock/entries/${entry.id}/corrections`, {
        startedAt: entry.startedAt,
        endedAt: new Date(Date.parse(entry.startedAt) + 25 * 60_000).toISOString(),
        reason: 'lunch in between',
      })
      .expect(201);
    const elsewhere = await floor.work({ hundredths: 40, labourCents: 5180 });
    await clock(bram, elsewhere, 12, 'finish');
    // The time of this one was moved away altogether: sold, and nobody on the clock.
    const nobody = await floor.work({ hundredths: 33 });
    await clock(bram, nobody, 5, 'finish');
    const [moved] = (await shop.manager.get(`/clock/entries?technicianId=${bram.staffId}&limit=1`)).body
      .items;
    await shop.manager
      .post(`/clock/entries/${moved.id}/corrections`, {
        startedAt: moved.startedAt,
        endedAt: moved.endedAt,
        indirectKind: 'road-test',
        reason: 'was a road test',
      })
      .expect(201);
    const running = await floor.work({ hundredths: 500 });
    await clock(bram, running, 7, 'off');

    const lines = await review(`lines?${days}`);
    expect(lines.lines).toHaveLength(5);
    const both = lines.lines.find((one: Line) => one.lineId === shared.lineId) as Line;
    // 60 : 20 minutes of 2.51 h: 1.8825 and 0.6275, the last hundredth to the larger remainder.
    expect(
      both.technicians.map((t) => [t.displayName, t.clockedSeconds, t.creditedHundredths]).sort(),
    ).toEqual([
      ['Bram', 3600, 188],
      ['Saffi', 1200, 63],
    ]);
    expect((lines.lines as Line[]).find((one) => one.lineId === late.lineId)?.comparison.clockedSeconds).toBe(
      1500,
    );
    const technicians = await review(`technicians?${days}`);
    const orders: string[] = [...new Set((lines.lines as Line[]).map(({ repairOrderId }) => repairOrderId))];
    const byOrder: { comparison: Compared }[] = [];
    for (const id of orders) byOrder.push({ comparison: (await review(`repair-orders/${id}`)).total });
    expect(total(lines.lines)).toEqual(only(lines.total));
    expect(total(technicians.technicians)).toEqual(only(lines.total));
    expect(total(byOrder)).toEqual(only(lines.total));
    expect(only(technicians.total)).toEqual(only(lines.total));
    const nobodyRow = technicians.technicians.find(
      (t: { technicianId: string | null }) => t.technicianId === null,
    );
    expect(nobodyRow).toMatchObject({
      comparison: { soldHundredths: 33, clockedSeconds: 0 },
      attendedSeconds: 0,
    });
    const bramRow = technicians.technicians.find((t: { displayName: string }) => t.displayName === 'Bram');
    // 48 + 60 + 12 on finished work, 7 more on work that is not; 5 of road test.
    expect(bramRow).toMatchObject({
      comparison: { clockedSeconds: 120 * 60 },
      jobSeconds: 127 * 60,
      indirectSeconds: 300,
      attendedSeconds: (48 + 60 + 20 + 50 + 12 + 5 + 7) * 60,
      jobPerAttended: { label: 'hours clocked on work orders in the period ÷ hours attended in the period' },
    });
  });

  it('counts time by the days of the shop, and work in the period in which it was finished', async () => {
    shop.clock.set(new Date('2026-03-13T03:30:00Z'));
    const night = await floor.work({ hundredths: 100 });
    await clock(bram, night, 60, 'finish');
    // 23:30 to 0:30 in New York: half an hour of the 12th, finished on the 13th.
    const [first, second] = [
      await review('technicians?from=2026-03-12&to=2026-03-12'),
      await review('technicians?from=2026-03-13&to=2026-03-13'),
    ];
    const row = (body: { technicians: { displayName: string }[] }) =>
      body.technicians.find(({ displayName }) => displayName === 'Bram');
    expect(row(first)).toMatchObject({
      jobSeconds: 1800,
      comparison: { soldHundredths: 0, clockedSeconds: 0 },
    });
    expect(row(second)).toMatchObject({
      jobSeconds: 1800,
      comparison: { soldHundredths: 100, clockedSeconds: 3600 },
    });
    const both = await review('technicians?from=2026-03-12&to=2026-03-13');
    expect(row(both)).toMatchObject({ jobSeconds: 3600 });
  });

  it('says what is still open on a repair order', async () => {
    const id = await floor.repairOrder();
    await floor.line({ answer: null }, id);
    await floor.line({ answer: 'declined' }, id);
    const body = await review(`repair-orders/${id}`);
    expect(body).toMatchObject({
      lines: [],
      authorisedCents: 0,
      invoiceableCents: 0,
      undecidedLines: 1,
      everythingDone: false,
    });
    expect(body.total.soldPerClocked.ppm).toBeNull();
    expect(await review(`repair-orders/${await floor.repairOrder()}`)).toMatchObject({
      everythingDone: true,
    });
  });

  it('is the managers’ and stays in the shop', async () => {
    for (const path of [`repair-orders/${order}`, `technicians?${days}`, `lines?${days}`]) {
      await shop.technician.get(`/review/${path}`).expect(403);
      await shop.frontDesk.get(`/review/${path}`).expect(403);
      expect((await fetch(`${shop.url}/api/v1/review/${path}`)).status).toBe(401);
    }
    await shop.manager.get(`/review/repair-orders/${randomUUID()}`).expect(404);
    const stranger = await (await shop.addShop('other-yard')).person('manager');
    await stranger.get(`/review/repair-orders/${order}`).expect(404);
    expect((await stranger.get(`/review/lines?${days}`).expect(200)).body.lines).toEqual([]);
    for (const [query, pointer] of [
      ['from=2026-03-11', '/to'],
      ['from=2026-02-30&to=2026-03-11', '/from'],
      ['from=2026-03-12&to=2026-03-11', '/to'],
      ['from=2025-01-01&to=2026-03-11', '/to'],
    ])
      expect((await shop.manager.get(`/review/lines?${query}`).expect(422)).body.fields[0].pointer).toBe(
        pointer,
      );
  });
});
