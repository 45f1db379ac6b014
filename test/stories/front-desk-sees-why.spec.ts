import { PlanShopBuilder } from '../builders/plan-shop.js';
import type { MadeWork } from '../builders/floor.js';
import { shopUnderTest, type Person, type ShopUnderTest } from '../support/shop-under-test.js';

// Wednesday 11 March 2026, New York, four hours behind UTC.
const at = (time: string, day = '2026-03-11'): string => `${day}T${time}:00-04:00`;
const utc = (time: string, day?: string): string => new Date(at(time, day)).toISOString();

interface Wait {
  for: string;
  until: string;
  words: string;
  remedy: string;
  isOnly: boolean;
}

describe('the front desk sees why a car is not ready sooner', () => {
  let shop: ShopUnderTest;
  let floor: PlanShopBuilder;
  let desk: Person;
  let bram: string;
  let saffi: string;
  let lift: string;
  beforeAll(async () => {
    shop = await shopUnderTest({ now: at('09:00') });
  });
  afterAll(async () => {
    await shop.stop();
  });
  beforeEach(async () => {
    shop.clock.set(new Date(at('09:00')));
    const yard = await shop.addShop(`yard-${Math.floor(performance.now() * 1000)}`);
    floor = new PlanShopBuilder(shop, yard.shopId);
    desk = await yard.person('front-desk', 'Wenna');
    bram = (await yard.person('technician', 'Bram')).staffId;
    saffi = (await yard.person('technician', 'Saffi')).staffId;
    for (const id of [bram, saffi]) await floor.everyDay(id);
    lift = await floor.bay();
  });

  const plan = async () => (await desk.get('/plan').expect(200)).body;
  const waitsOf = async (work: MadeWork): Promise<Wait[]> =>
    (await plan()).planned.find((one: { workOrderId: string }) => one.workOrderId === work.workOrderId).waits;

  it('waits for a part until Thursday', async () => {
    const thursday = '2026-03-12';
    const work = await floor.work({ items: [{ name: 'strut', expectedAt: at('10:00', thursday) }] });
    const planRunId = await floor.run();
    const id = await floor.place(work.workOrderId, {
      ...{ bayId: lift, technicianId: bram, planRunId },
      ...{ from: at('10:00', thursday), to: at('11:00', thursday) },
    });
    const body = await plan();
    expect(body).toMatchObject({
      ...{ timeZone: 'America/New_York', now: utc('09:00'), mode: 'propose' },
      ...{ late: [], notPlanned: [], notes: [], openProposalId: null },
      lastRun: { id: planRunId, at: utc('09:00'), outcome: 'applied' },
    });
    expect(body.planned).toMatchObject([
      {
        ...{ workOrderId: work.workOrderId, number: work.number, assignmentId: id, version: 1 },
        ...{ bayId: lift, technicianName: 'Bram', tools: [], isPinned: false, madeBy: 'plan' },
        ...{ startsAt: utc('10:00', thursday), endsAt: utc('11:00', thursday), bayUntil: null },
        waits: [
          {
            ...{ for: 'parts', until: utc('10:00', thursday), isOnly: false },
            ...{ words: 'It waits for strut.', remedy: 'Parts that come sooner.' },
          },
        ],
      },
    ]);
  });

  it('waits for the only lift, which work on the clock has until what is left of it is done', async () => {
    const [running, next] = [
      await floor.work({ needsLift: true, hundredths: 200 }),
      await floor.work({ needsLift: true }),
    ];
    await floor.place(running.workOrderId, {
      bayId: lift,
      technicianId: bram,
      from: at('09:00'),
      to: at('11:00'),
    });
    await floor.claim(running.workOrderId, bram, at('09:00'));
    await floor.clocked(running.workOrderId, bram, at('09:00'));
    await floor.place(next.workOrderId, {
      bayId: lift,
      technicianId: saffi,
      from: at('11:00'),
      to: at('12:00'),
    });
    shop.clock.set(new Date(at('10:00')));
    const [wait] = await waitsOf(next);
    expect(wait).toMatchObject({ for: 'bay', until: utc('11:00'), isOnly: true });
    expect(wait?.words).toMatch(/^"?Bay \d+"? is held until then\.$/);
    const { planned } = await plan();
    expect(planned[0]).toMatchObject({
      ...{ workOrderId: running.workOrderId, isOnTheClock: true, madeBy: 'person' },
      ...{ expectedEndsAt: utc('11:00'), waits: [{ for: 'started', words: 'It was started.' }] },
    });
  });

  it('waits for the only technician who holds the certificate', async () => {
    await floor.skill(bram, 'refrigerant', '2026-12-31');
    const other = await floor.bay();
    const [first, second] = [
      await floor.work({ skills: ['refrigerant'] }),
      await floor.work({ skills: ['refrigerant'] }),
    ];
    await floor.place(first.workOrderId, {
      bayId: lift,
      technicianId: bram,
      from: at('09:00'),
      to: at('10:00'),
    });
    await floor.place(second.workOrderId, {
      bayId: other,
      technicianId: bram,
      from: at('10:00'),
      to: at('11:00'),
    });
    const [wait] = await waitsOf(second);
    expect(wait).toEqual({
      ...{ for: 'technician', until: utc('10:00'), isOnly: true },
      words: 'Bram alone holds refrigerant and is taken until then.',
      remedy: 'A second person who holds refrigerant.',
    });
  });

  it('names what a late promise is late for, from the last work back, and does not call late what nobody promised', async () => {
    const [order, before] = [await floor.repairOrder({ promisedAt: at('11:30') }), await floor.repairOrder()];
    const blocking = await floor.work({ title: 'Clutch' }, before);
    const [off, on] = [
      await floor.work({ title: 'Rack out' }, order),
      await floor.work({ title: 'Rack in' }, order),
    ];
    await floor.after(on.workOrderId, off.workOrderId);
    const place = (work: MadeWork, technicianId: string, from: string, to: string) =>
      floor.place(work.workOrderId, { bayId: lift, technicianId, from: at(from), to: at(to) });
    await place(blocking, bram, '09:00', '10:00');
    await place(off, bram, '10:00', '11:00');
    await place(on, saffi, '11:00', '12:00');
    const { late } = await plan();
    expect(late).toHaveLength(1);
    expect(late[0]).toMatchObject({
      ...{ repairOrderId: order, promisedAt: utc('11:30'), readyAt: utc('12:00'), minutesLate: 30 },
    });
    expect(late[0].steps.map((step: { workOrderId: string }) => step.workOrderId)).toEqual(
      [on, off, blocking].map(({ workOrderId }) => workOrderId),
    );
    expect(late[0].steps[0]).toMatchObject({
      words: expect.stringMatching(/^Work order \d+ · Rack out · KY \d+ must be over first\.$/) as string,
      until: utc('11:00'),
    });
    expect(late[0].steps[1].until).toBe(utc('10:00'));
    // The first of the chain can start at once.
    expect(late[0].steps[2]).toMatchObject({ words: 'It can start at once.', until: null });
  });

  it('tells what has no place, and a promise that passed because of it', async () => {
    const order = await floor.repairOrder({ promisedAt: at('08:00') });
    const missing = await floor.work({ items: [{ name: 'hub' }] }, order);
    const nobody = await floor.work({ skills: ['welding'] });
    const heavy = await floor.work({ needsLift: true }, await floor.repairOrder({ weightKg: 4000 }));
    const free = await floor.work();
    const body = await plan();
    const why = (work: MadeWork): string =>
      body.notPlanned.find((one: { workOrderId: string }) => one.workOrderId === work.workOrderId).why;
    expect(body.planned).toEqual([]);
    expect(why(missing)).toBe('Nobody knows when this comes: hub. Give it a date.');
    expect(why(nobody)).toContain('Nobody here holds welding');
    expect(why(heavy)).toBe('The vehicle weighs 4000 kg; the strongest lift is rated for 3500 kg.');
    expect(why(free)).toBe('It has no place yet.');
    expect(body.late).toMatchObject([
      {
        ...{ repairOrderId: order, readyAt: null, minutesLate: 60 },
        steps: [{ workOrderId: missing.workOrderId, words: why(missing), until: null }],
      },
    ]);
    await shop.sql('delete from shift_patterns where technician_id = $1', [saffi]);
    expect((await plan()).notes).toMatchObject([{ about: 'technician', id: saffi }]);
  });

  it('names who holds work that nobody else is to do, where they cannot', async () => {
    const held = await floor.work({ skills: ['welding'] });
    await floor.skill(saffi, 'welding');
    await floor.claim(held.workOrderId, bram, at('08:30'));
    const free = await floor.work();
    await floor.claim(free.workOrderId, bram, at('08:31'));
    const { notPlanned } = await plan();
    const why = (work: MadeWork): string =>
      notPlanned.find((one: { workOrderId: string }) => one.workOrderId === work.workOrderId).why;
    expect(why(held)).toBe(
      'Only Bram is to do it, and there is no place for that. Have it given back, or take the pin off.',
    );
    expect(why(free)).toBe('It has no place yet.');
  });

  it('shows a proposal that waits, is open to everybody who reads the board, and to no other shop', async () => {
    const work = await floor.work();
    await floor.place(work.workOrderId, {
      ...{ bayId: lift, technicianId: bram, from: at('10:00'), to: at('11:00'), isPinned: true },
    });
    const open = await floor.run('proposed');
    await floor.run(null);
    const body = await plan();
    expect(body).toMatchObject({ openProposalId: open, lastRun: { id: open, outcome: 'proposed' } });
    expect(body.planned).toMatchObject([{ isPinned: true, waits: [{ for: 'pin' }] }]);
    await shop.technician.get('/plan').expect(200);
    expect((await shop.frontDesk.get('/plan').expect(200)).body).toMatchObject({
      planned: [],
      lastRun: null,
    });
  });
});
