import { checkProblem, type PlanOperation } from '#libs/plan';
import type { ShopPlan } from '#server/modules/planning/index';
import { PlanShopBuilder } from '../builders/plan-shop.js';
import type { LineWish, MadeWork } from '../builders/floor.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

// Wednesday 11 March 2026, New York, four hours behind UTC.
const at = (time: string, day = '2026-03-11'): string => `${day}T${time}:00-04:00`;
const HOUR = 60;

describe('the open work of a shop as a problem for the planner', () => {
  let shop: ShopUnderTest;
  let floor: PlanShopBuilder;
  let bram: string;
  let saffi: string;
  let lift: string;
  beforeAll(async () => {
    shop = await shopUnderTest({ now: at('09:00') });
  });
  afterAll(async () => {
    await shop.stop();
  });
  // Each test has a shop of its own in the one server.
  beforeEach(async () => {
    shop.clock.set(new Date(at('09:00')));
    const yard = await shop.addShop(`yard-${Math.floor(performance.now() * 1000)}`);
    floor = new PlanShopBuilder(shop, yard.shopId);
    bram = (await yard.person('technician', 'Bram')).staffId;
    saffi = (await yard.person('technician', 'Saffi')).staffId;
    for (const id of [bram, saffi]) await floor.everyDay(id);
    lift = await floor.bay();
  });

  const operationOf = (
    loaded: ShopPlan,
    { workOrderId }: { workOrderId: string },
  ): PlanOperation | undefined =>
    loaded.problem.repairOrders.flatMap(({ operations }) => operations).find(({ id }) => id === workOrderId);
  const load = async (): Promise<ShopPlan> => {
    const loaded = await floor.load();
    expect(checkProblem(loaded.problem).ok).toBe(true);
    return loaded;
  };
  const minute = ({ horizon }: ShopPlan, time: string, day?: string): number =>
    horizon.minuteOf(new Date(at(time, day)));
  const why = (loaded: ShopPlan, { workOrderId }: MadeWork): string =>
    loaded.notPlannable.find((one) => one.workOrderId === workOrderId)?.why ?? '';

  it('has each open work order once, with what it needs, on its car', async () => {
    const tool = await floor.tool(2, 'spring compressor');
    const order = await floor.repairOrder({ weightKg: 1700, heightMm: 1500, promisedAt: at('17:00') });
    const work = await floor.work(
      { hundredths: 150, needsLift: true, bayKinds: ['lift'], skills: ['brakes'], toolIds: [tool] },
      order,
    );
    const done = await floor.work();
    await floor.finished(done.workOrderId, bram, at('08:30'));
    const loaded = await load();
    expect(operationOf(loaded, work)).toEqual({
      ...{ id: work.workOrderId, minutes: 90, after: [], earliest: null, teardown: null, pin: null },
      bay: { lift: true, liftKind: null, kinds: ['lift'] },
      ...{ skills: ['brakes'], tools: [tool] },
    });
    expect(loaded.problem.repairOrders).toHaveLength(1);
    expect(loaded.problem.repairOrders[0]).toMatchObject({
      ...{ id: order, weight: 1, arrives: null, vehicle: { weightKg: 1700, heightMm: 1500 } },
      promised: minute(loaded, '17:00'),
    });
    expect(loaded.problem.now).toBe(minute(loaded, '09:00'));
    expect(loaded.problem.tools).toMatchObject([
      { id: `${tool}#1`, kind: tool },
      { id: `${tool}#2`, kind: tool },
    ]);
    expect(loaded.names.get(work.workOrderId)).toMatch(/^Work order \d+ · Front brake pads · KY \d+$/);
    expect(loaded.names.get(`${tool}#2`)).toBe('spring compressor (unit 2)');
  });

  it('counts the first whole minute that is not over, and a promise of the past too', async () => {
    shop.clock.set(new Date('2026-03-11T13:00:30Z'));
    const order = await floor.repairOrder({ promisedAt: at('09:00', '2026-03-01') });
    await floor.work({}, order);
    const loaded = await load();
    expect(loaded.problem.now).toBe(minute(loaded, '09:01'));
    expect(loaded.problem.repairOrders[0]?.promised).toBe(minute(loaded, '09:00', '2026-03-01'));
    expect(loaded.horizon.instantOf(loaded.problem.now).toISOString()).toBe('2026-03-11T13:01:00.000Z');
  });

  it('has the floor with the rules by which places are given by hand', async () => {
    await floor.skill(bram, 'brakes', '2026-03-20');
    await floor.skill(bram, 'welding');
    const lapsing = await floor.bay({ inspectedOn: '2025-03-15', capacityKg: 2500, maxHeightMm: 2100 });
    const uninspected = await floor.bay({ inspectedOn: null });
    const flat = await floor.bay({ kind: 'flat' });
    await floor.work();
    const loaded = await load();
    const { bays, technicians } = loaded.problem;
    const bay = (id: string) => bays.find((one) => one.id === id);
    // Through the day a year after its inspection, and through the last day of the certificate.
    expect(bay(lapsing)).toMatchObject({
      maxHeightMm: 2100,
      lift: { kind: 'two-post', capacityKg: 2500, until: minute(loaded, '00:00', '2026-03-16') },
    });
    expect(bay(uninspected)?.lift?.until).toBe(0);
    expect(bay(flat)).toMatchObject({ kind: 'flat', lift: null });
    const held = technicians.find(({ id }) => id === bram);
    expect(held?.skills).toEqual([
      { skill: 'brakes', until: minute(loaded, '00:00', '2026-03-21') },
      { skill: 'welding', until: null },
    ]);
    const today = minute(loaded, '00:00');
    expect(held?.works.filter(([from]) => from >= today).slice(0, 2)).toEqual([
      [minute(loaded, '08:00'), minute(loaded, '12:00')],
      [minute(loaded, '12:30'), minute(loaded, '17:00')],
    ]);
  });

  it('says of whom nobody has said when they work', async () => {
    await shop.sql('delete from shift_patterns where technician_id = $1', [saffi]);
    await floor.work();
    const loaded = await load();
    expect(loaded.problem.technicians.find(({ id }) => id === saffi)?.works).toEqual([]);
    expect(loaded.notes).toMatchObject([{ about: 'technician', id: saffi }]);
    expect(loaded.notes[0]?.words).toContain('Saffi');
  });

  it('leaves work on the clock where it is, from the start of its place until what is left is done', async () => {
    const work = await floor.work({ hundredths: 400, needsLift: true });
    await floor.place(work.workOrderId, {
      bayId: lift,
      technicianId: bram,
      from: at('08:00'),
      to: at('12:00'),
    });
    await floor.claim(work.workOrderId, bram, at('08:10'));
    await floor.clocked(work.workOrderId, bram, at('08:10'));
    shop.clock.set(new Date(at('11:00')));
    const loaded = await load();
    // 240 minutes less 170: 70 are left, of which 10 are after the break.
    expect(operationOf(loaded, work)?.started).toEqual({
      ...{ start: minute(loaded, '08:00'), end: minute(loaded, '12:40'), bay: lift },
      ...{ technicians: [bram], tools: [] },
    });
    expect(loaded.problem.previous).toEqual([]);
  });

  it('counts from the clock what began outside its place, and on past the book hours', async () => {
    const work = await floor.work({ hundredths: 100 });
    await floor.place(work.workOrderId, {
      bayId: lift,
      technicianId: bram,
      from: at('13:00'),
      to: at('14:00'),
    });
    await floor.claim(work.workOrderId, saffi, at('08:59'));
    await floor.clocked(work.workOrderId, saffi, '2026-03-11T12:59:20Z');
    shop.clock.set(new Date(at('10:30')));
    const loaded = await load();
    const started = operationOf(loaded, work)?.started;
    expect(started).toMatchObject({ start: minute(loaded, '09:00'), bay: lift, technicians: [saffi] });
    // An hour was booked, more was clocked: a quarter of an hour is always left.
    expect(started?.end).toBe(minute(loaded, '10:45'));
    expect(loaded.begunAt.get(work.workOrderId)?.toISOString()).toBe('2026-03-11T12:59:20.000Z');
  });

  it('knows no bay for work on the clock that has no place, and asks for one', async () => {
    const work = await floor.work();
    await floor.claim(work.workOrderId, bram, at('08:50'));
    await floor.clocked(work.workOrderId, bram, at('08:50'));
    const loaded = await load();
    expect(operationOf(loaded, work)).toMatchObject({
      bay: null,
      started: { bay: null, technicians: [bram] },
    });
    expect(loaded.notes).toMatchObject([{ about: 'work-order', id: work.workOrderId }]);
  });

  it('lets claimed and paused work be done by its holder only, with what is left of it', async () => {
    const [claimed, paused, free] = [
      await floor.work({ hundredths: 100 }),
      await floor.work({ hundredths: 200 }),
      await floor.work(),
    ];
    await floor.claim(claimed.workOrderId, saffi, at('08:50'));
    await floor.claim(paused.workOrderId, bram, at('08:00'));
    await floor.clocked(paused.workOrderId, bram, at('08:00'), at('08:30'));
    const loaded = await load();
    expect(operationOf(loaded, claimed)).toMatchObject({ minutes: 60, pin: { technicians: [saffi] } });
    expect(operationOf(loaded, paused)).toMatchObject({ minutes: 90, pin: { technicians: [bram] } });
    expect(operationOf(loaded, free)?.pin).toBeNull();
  });

  it('keeps what a person laid down, its length and time outside the shift included', async () => {
    const [work, late] = [await floor.work({ hundredths: 100 }), await floor.work()];
    const pinned = { bayId: lift, technicianId: bram, isPinned: true };
    await floor.place(work.workOrderId, { ...pinned, from: at('10:00'), to: at('12:30') });
    await floor.place(late.workOrderId, { ...pinned, from: at('18:00'), to: at('19:00') });
    const loaded = await load();
    expect(operationOf(loaded, work)).toMatchObject({
      // That it ends in the break says that they work through.
      minutes: 150,
      pin: { start: minute(loaded, '10:00'), bay: lift, technicians: [bram] },
    });
    expect(operationOf(loaded, late)).toMatchObject({
      ...{ minutes: 60, pin: { start: minute(loaded, '18:00'), bay: lift, technicians: [bram] } },
    });
    const works = loaded.problem.technicians.find(({ id }) => id === bram)?.works ?? [];
    expect(works).toContainEqual([minute(loaded, '18:00'), minute(loaded, '19:00')]);
  });

  it('keeps bay and technician of a pin whose time has passed or lies before the parts, and says so', async () => {
    const items = [{ name: 'strut', expectedAt: at('14:00') }];
    const [passed, early] = [await floor.work(), await floor.work({ items })];
    const pinned = { bayId: lift, technicianId: bram, isPinned: true };
    await floor.place(passed.workOrderId, { ...pinned, from: at('08:00'), to: at('09:00') });
    await floor.place(early.workOrderId, { ...pinned, from: at('11:00'), to: at('12:00') });
    const loaded = await load();
    for (const work of [passed, early])
      expect(operationOf(loaded, work)?.pin).toEqual({ bay: lift, technicians: [bram] });
    expect(operationOf(loaded, early)?.earliest).toBe(minute(loaded, '14:00'));
    expect(loaded.notes.map(({ id, words }) => [id, words.includes('passed') ? 'passed' : 'parts'])).toEqual([
      [passed.workOrderId, 'passed'],
      [early.workOrderId, 'parts'],
    ]);
  });

  it('waits for the last part that is out, and cannot plan without its date', async () => {
    const part = (name: string, expectedAt: string | null = null): LineWish['items'] => [
      { name, expectedAt },
      { name: 'clip', expectedAt: at('10:00') },
    ];
    const coming = await floor.work({ items: part('strut', at('15:00')) });
    const undated = await floor.work({ items: part('hub') });
    const overdue = await floor.work({ items: part('hose', at('08:00')) });
    const forgotten = await floor.work({ items: part('belt', at('08:00', '2026-03-10')) });
    const received = await floor.work({ items: [{ name: 'bulb' }] });
    await shop.sql(
      `insert into part_receipts (shop_id, id, line_item_id, quantity_hundredths, received_at, received_by)
       values ($1, gen_random_uuid(), $2, 100, now(), $3)`,
      [floor.ownShopId, received.itemIds[0], bram],
    );
    const loaded = await load();
    expect(operationOf(loaded, coming)?.earliest).toBe(minute(loaded, '15:00'));
    expect(operationOf(loaded, received)?.earliest).toBeNull();
    // It may still come any minute.
    expect(operationOf(loaded, overdue)?.earliest).toBe(minute(loaded, '10:00'));
    expect(operationOf(loaded, undated)).toBeUndefined();
    expect(why(loaded, undated)).toContain('hub');
    expect(why(loaded, forgotten)).toContain(
      'Overdue since 2026-03-10 08:00: belt. Ask the supplier and enter a new date;',
    );
    expect(loaded.notPlannable).toHaveLength(2);
  });

  it('cannot plan what the owner does not agree to any more, what was taken out, and what comes after such work', async () => {
    const order = await floor.repairOrder();
    const [declined, after, out] = [
      await floor.work({}, order),
      await floor.work({}, order),
      await floor.work(),
    ];
    const [first, second] = [await floor.work({}, order), await floor.work({}, order)];
    await floor.decide(order, declined.lineId, 'declined');
    await floor.after(after.workOrderId, declined.workOrderId);
    await floor.after(second.workOrderId, first.workOrderId);
    await floor.leftOut(out.workOrderId);
    const begun = await floor.work();
    await floor.claim(begun.workOrderId, bram, at('08:00'));
    await floor.clocked(begun.workOrderId, bram, at('08:00'), at('08:30'));
    await floor.leftOut(begun.workOrderId);
    const loaded = await load();
    expect(why(loaded, declined)).toContain('not agreed');
    expect(why(loaded, after)).toContain(`after work order ${declined.number}`);
    expect(why(loaded, out)).toContain('took it out');
    expect(operationOf(loaded, second)?.after).toEqual([first.workOrderId]);
    expect(operationOf(loaded, begun)).toBeDefined();
  });

  it('takes work of one car that shares a step for one teardown, by its smallest id', async () => {
    const order = await floor.repairOrder();
    const [one, two] = await floor.teardown([{}, {}], order);
    const alone = await floor.work({ stepIds: [await floor.step()] }, order);
    const loaded = await load();
    const word = [one, two].map((work) => work?.workOrderId ?? '').sort()[0];
    for (const work of [one, two]) expect(work && operationOf(loaded, work)?.teardown).toBe(word);
    expect(operationOf(loaded, alone)?.teardown).toBeNull();
  });

  it('keeps the bay for a car that stands apart, where its work was last begun', async () => {
    const [done, paused] = await floor.teardown([{}, { hundredths: 200 }]);
    if (done === undefined || paused === undefined) throw new Error('two were made');
    const other = await floor.bay();
    await floor.place(done.workOrderId, {
      bayId: lift,
      technicianId: bram,
      from: at('07:00'),
      to: at('08:00'),
    });
    await floor.clocked(done.workOrderId, bram, at('07:00'), at('08:00'));
    await floor.finished(done.workOrderId, bram, at('08:00'));
    await floor.place(paused.workOrderId, {
      bayId: other,
      technicianId: bram,
      from: at('14:00'),
      to: at('16:00'),
    });
    const loaded = await load();
    const [order] = loaded.problem.repairOrders;
    const [standing, rest] = order?.operations ?? [];
    expect(standing).toMatchObject({
      teardown: rest?.teardown,
      started: { end: loaded.problem.now, bay: lift, technicians: [] },
    });
    expect(rest?.id).toBe(paused.workOrderId);
    // A lift for what is left is not asked for twice: it stays where it stands.
    expect(loaded.finished).toEqual([
      { workOrderId: done.workOrderId, repairOrderId: done.repairOrderId, teardown: rest?.teardown },
    ]);
  });

  it('does not take a car apart for work that it cannot plan, and holds the bay where it is apart already', async () => {
    const [whole, undated] = await floor.teardown([{}, { items: [{ name: 'rack' }] }]);
    const [running, missing] = await floor.teardown([{ hundredths: 200 }, { items: [{ name: 'seal' }] }]);
    if (!whole || !undated || !running || !missing) throw new Error('four were made');
    await floor.place(running.workOrderId, {
      bayId: lift,
      technicianId: bram,
      from: at('08:00'),
      to: at('10:00'),
    });
    await floor.claim(running.workOrderId, bram, at('08:00'));
    await floor.clocked(running.workOrderId, bram, at('08:00'));
    const loaded = await load();
    expect(why(loaded, whole)).toContain(`work order ${undated.number} is not planned`);
    const order = loaded.problem.repairOrders.find(({ id }) => id === running.repairOrderId);
    expect(order?.operations.map(({ id }) => id.replace(/:.*/, ''))).toEqual(['held', running.workOrderId]);
    // Nobody can say when this car is ready.
    expect(order?.promised).toBeNull();
    expect(loaded.notes).toMatchObject([{ about: 'bay', id: lift }]);
  });

  it('does not lift a car that stands apart on what may not carry it, only because it stands there', async () => {
    const flat = await floor.bay({ kind: 'flat' });
    const [begun, lifted] = await floor.teardown([{ hundredths: 200 }, { needsLift: true }]);
    if (!begun || !lifted) throw new Error('two were made');
    await floor.place(begun.workOrderId, {
      bayId: flat,
      technicianId: bram,
      from: at('08:00'),
      to: at('10:00'),
    });
    await floor.claim(begun.workOrderId, bram, at('08:00'));
    await floor.clocked(begun.workOrderId, bram, at('08:00'));
    const loaded = await load();
    expect(why(loaded, lifted)).toMatch(
      /^The car stands apart in Bay \d+\. This work needs a lift and Bay \d+ has none\.$/,
    );
    expect(operationOf(loaded, begun)?.started?.bay).toBe(flat);
  });

  it('takes a car for whole again when another was worked on in its bay since', async () => {
    const [done, next] = await floor.teardown([{}, {}]);
    if (!done || !next) throw new Error('two were made');
    const other = await floor.work();
    const place = { bayId: lift, technicianId: bram };
    await floor.place(done.workOrderId, { ...place, from: at('07:00'), to: at('07:30') });
    await floor.clocked(done.workOrderId, bram, at('07:00'), at('07:30'));
    await floor.finished(done.workOrderId, bram, at('07:30'));
    await floor.place(other.workOrderId, { ...place, from: at('08:00'), to: at('08:30') });
    const before = await load();
    expect(operationOf(before, next)?.teardown).not.toBeNull();
    const of = ({ problem }: ShopPlan) => problem.repairOrders.find(({ id }) => id === done.repairOrderId);
    expect(of(before)?.operations).toHaveLength(2);
    await floor.clocked(other.workOrderId, bram, at('08:00'), at('08:30'));
    const after = await load();
    expect(of(after)?.operations.map(({ id }) => id)).toEqual([next.workOrderId]);
    expect(after.finished).toEqual([]);
  });

  it('cannot plan for a car that stands apart nobody knows where, until somebody says so', async () => {
    const [paused, next] = await floor.teardown([{ hundredths: 200 }, {}]);
    if (!paused || !next) throw new Error('two were made');
    await floor.claim(paused.workOrderId, bram, at('08:00'));
    await floor.clocked(paused.workOrderId, bram, at('08:00'), at('08:30'));
    const unknown = await load();
    for (const work of [paused, next]) expect(why(unknown, work)).toContain('nobody has said in which bay');
    await floor.place(paused.workOrderId, {
      ...{ bayId: lift, technicianId: bram, from: at('13:00'), to: at('14:30') },
    });
    const known = await load();
    expect(known.notPlannable).toEqual([]);
    expect(known.problem.repairOrders[0]?.operations[0]?.started?.bay).toBe(lift);
  });

  it('lets work on the clock have its place only from when what was there before gave it back', async () => {
    const [before, work] = [await floor.work(), await floor.work({ hundredths: 200 })];
    await floor.place(before.workOrderId, {
      ...{ bayId: lift, technicianId: bram, from: at('08:00'), to: at('10:30') },
    });
    await floor.finished(before.workOrderId, bram, at('10:00'));
    await floor.place(work.workOrderId, {
      ...{ bayId: lift, technicianId: saffi, from: at('11:00'), to: at('13:00') },
    });
    await floor.claim(work.workOrderId, saffi, at('09:40'));
    await floor.clocked(work.workOrderId, saffi, at('09:40'));
    shop.clock.set(new Date(at('10:10')));
    const loaded = await load();
    expect(operationOf(loaded, work)?.started).toMatchObject({ start: minute(loaded, '09:40'), bay: lift });
    expect(loaded.begunAt.get(work.workOrderId)).toEqual(new Date(at('10:00')));
  });

  it('gives the time that is kept in four of five cases where a line has a spread', async () => {
    const work = await floor.work({ hundredths: 100, spread: [50, 300] });
    const loaded = await load();
    // Triangular from 0.5 to 3 hours with its peak at 1: the 80 % quantile is 3 - sqrt(2.5 · 2 · 0.2) = 2 hours.
    expect(operationOf(loaded, work)).toMatchObject({ minutes: HOUR, minutesP80: 2 * HOUR });
  });

  it('names nobody and nothing that it does not have', async () => {
    const tool = await floor.tool(2);
    const [claimed, moved] = [await floor.work(), await floor.work({ toolIds: [tool] })];
    const gone = await floor.bay();
    await floor.claim(claimed.workOrderId, saffi, at('08:00'));
    await floor.place(moved.workOrderId, {
      ...{ bayId: gone, technicianId: saffi, from: at('10:00'), to: at('11:00') },
      ...{ isPinned: true, units: [{ toolId: tool, unit: 2 }] },
    });
    await shop.sql('update staff set is_active = false where id = $1', [saffi]);
    await shop.sql('update bays set is_active = false where id = $1', [gone]);
    await shop.sql('update special_tools set units = 1 where id = $1', [tool]);
    const loaded = await load();
    const { technicians, bays, tools } = loaded.problem;
    expect(technicians.find(({ id }) => id === saffi)?.works).toEqual([]);
    expect(bays.find(({ id }) => id === gone)?.outOfService).toEqual([[0, loaded.horizon.until]]);
    expect(tools?.map(({ id, outOfService }) => [id, outOfService?.length])).toEqual([
      [`${tool}#1`, 0],
      [`${tool}#2`, 1],
    ]);
  });

  it('takes in work of other modules, and keeps clear of places that nobody speaks for', async () => {
    const work = await floor.work();
    const finished = await floor.work();
    await floor.place(finished.workOrderId, {
      bayId: lift,
      technicianId: bram,
      from: at('08:50'),
      to: at('09:30'),
    });
    await floor.finished(finished.workOrderId, bram, at('08:55'));
    const loaded = await floor.load((_tx, { now, minuteOf }) =>
      Promise.resolve({
        repairOrders: [
          {
            id: 'r',
            arrives: minuteOf(new Date(at('10:00'))),
            operations: [{ id: 'r.1', minutes: 30, bay: {} }],
          },
        ],
        names: new Map([['r.1', `kept since ${now}`]]),
        places: new Map([
          [
            'r.1',
            {
              ...{ assignmentId: 'a', version: 1, workOrderId: null, bayId: lift, technicianId: saffi },
              ...{ startsAt: new Date(at('10:00')), endsAt: new Date(at('10:30')), bayUntil: null },
              ...{ tools: [], isPinned: false, planRunId: null, madeBy: bram },
            },
          ],
        ]),
      }),
    );
    expect(loaded.problem.repairOrders.map(({ id }) => id).sort()).toEqual([work.repairOrderId, 'r'].sort());
    expect(loaded.problem.previous).toMatchObject([{ operation: 'r.1', start: minute(loaded, '10:00') }]);
    // It was finished after five minutes and keeps its place for the shortest time that a place has.
    const taken = [[minute(loaded, '08:50'), minute(loaded, '09:05')]];
    expect(loaded.problem.technicians.find(({ id }) => id === bram)?.engaged).toEqual(taken);
    expect(loaded.problem.bays.find(({ id }) => id === lift)?.outOfService).toEqual(taken);
  });
});
