import { FloorBuilder, type MadeWork } from '../builders/floor.js';
import { shopUnderTest, type Person, type ShopUnderTest } from '../support/shop-under-test.js';

interface Answer {
  readonly status: number;
  readonly body: Record<string, unknown>;
}

const counted = (answers: readonly Answer[]): Record<number, number> => {
  const counts: Record<number, number> = {};
  for (const { status } of answers) counts[status] = (counts[status] ?? 0) + 1;
  return counts;
};
const times = <T>(count: number, make: (n: number) => Promise<T>): Promise<T[]> =>
  Promise.all(Array.from({ length: count }, (_, n) => make(n)));

describe('many at once on the floor', () => {
  let shop: ShopUnderTest;
  let floor: FloorBuilder;
  let crowd: Person[];
  beforeAll(async () => {
    shop = await shopUnderTest();
    floor = new FloorBuilder(shop);
    crowd = await times(100, (n) => shop.addPerson('technician', `Person ${n}`));
    await floor.bay({ kind: 'flat' });
  }, 60_000);
  afterAll(async () => {
    await shop.stop();
  });
  it('of 100 technicians who claim one work order, one has it and 99 are told who', async () => {
    const { workOrderId } = await floor.work();
    const answers = await Promise.all(
      crowd.map(async (person) => ({
        person,
        answer: await person.post(`/work-orders/${workOrderId}/claims`),
      })),
    );
    expect(counted(answers.map(({ answer }) => answer))).toEqual({ 201: 1, 409: 99 });
    const winner = answers.find(({ answer }) => answer.status === 201);
    for (const { answer } of answers.filter((one) => one !== winner))
      expect(answer.body).toMatchObject({
        code: 'work-order-claimed',
        holder: { id: winner?.person.staffId, displayName: winner?.answer.body.displayName },
        since: winner?.answer.body.claimedAt,
      });
    expect(await shop.sql('select id from claims where work_order_id = $1', [workOrderId])).toHaveLength(1);
  });

  it('of 40 bookings of one bay hour one wins, and the others are told which', async () => {
    const bayId = await floor.bay();
    const works: MadeWork[] = [];
    for (let n = 0; n < 40; n += 1) works.push(await floor.work());
    const place = { bayId, startsAt: '2026-03-12T13:00:00Z', endsAt: '2026-03-12T14:00:00Z' };
    const answers: Answer[] = await times(40, async (n) =>
      shop.frontDesk.post('/assignments', {
        ...place,
        workOrderId: works[n]?.workOrderId,
        technicianId: crowd[n]?.staffId,
      }),
    );
    expect(counted(answers)).toEqual({ 201: 1, 409: 39 });
    const winner = answers.find(({ status }) => status === 201);
    const told = answers
      .filter(({ status }) => status === 409)
      .map(({ body }) => [body['code'], body['holder']]);
    expect(new Set(told.map((one) => JSON.stringify(one))).size).toBe(1);
    expect(told[0]).toMatchObject(['bay-taken', { workOrderNumber: winner?.body['workOrderNumber'] }]);
  });

  it('of 40 who book one technician one wins, and of a tool with two units two get one each', async () => {
    const toolId = await floor.tool(2);
    const bays: string[] = [];
    const [plain, withTool]: [MadeWork[], MadeWork[]] = [[], []];
    for (let n = 0; n < 40; n += 1) {
      bays.push(await floor.bay());
      plain.push(await floor.work());
      withTool.push(await floor.work({ toolIds: [toolId] }));
    }
    const book = (n: number, work: MadeWork | undefined, technicianId: string | undefined, hour: string) =>
      shop.frontDesk.post('/assignments', {
        workOrderId: work?.workOrderId,
        bayId: bays[n],
        technicianId,
        startsAt: `2026-03-13T${hour}:00:00Z`,
        endsAt: `2026-03-13T${hour}:30:00Z`,
      });
    const person: Answer[] = await times(40, async (n) => book(n, plain[n], crowd[0]?.staffId, '13'));
    expect(counted(person)).toEqual({ 201: 1, 409: 39 });
    const tool: Answer[] = await times(40, async (n) => book(n, withTool[n], crowd[n]?.staffId, '15'));
    expect(counted(tool)).toEqual({ 201: 2, 409: 38 });
    expect(new Set(tool.filter(({ status }) => status === 409).map(({ body }) => body['code']))).toEqual(
      new Set(['tool-taken']),
    );
    const units = await shop.sql('select unit from assignment_tools where tool_id = $1 order by unit', [
      toolId,
    ]);
    expect(units).toEqual([{ unit: 1 }, { unit: 2 }]);
  });

  it('of 20 clock-ons of one technician one runs, whatever they are on', async () => {
    const works: MadeWork[] = [];
    for (let n = 0; n < 20; n += 1) works.push(await floor.work());
    const [bram] = crowd;
    const answers: Answer[] = await times(20, async (n) =>
      (bram as Person).post('/clock/on', { workOrderId: works[n]?.workOrderId }),
    );
    expect(counted(answers)).toEqual({ 201: 1, 409: 19 });
    const codes = new Set(answers.filter(({ status }) => status === 409).map(({ body }) => body['code']));
    expect(codes).toEqual(new Set(['already-clocked-on']));
    const claims = await shop.sql(
      'select id from claims where technician_id = $1 and work_order_id = any ($2)',
      [bram?.staffId, works.map(({ workOrderId }) => workOrderId)],
    );
    expect(claims).toHaveLength(1);
    const offs: Answer[] = await times(20, async () => (bram as Person).post('/clock/off'));
    expect(counted(offs)).toEqual({ 200: 1, 409: 19 });
  });

  it('of a decline and a clock-on at the same moment exactly one happens', async () => {
    const outcomes: string[] = [];
    for (let round = 0; round < 30; round += 1) {
      const work = await floor.work();
      const person = crowd[round + 1] as Person;
      const [clocked, withdrawn] = await Promise.all([
        person.post('/clock/on', { workOrderId: work.workOrderId }),
        floor.withdraw(work.lineId).then(
          () => 'withdrawn',
          (error: unknown) => (error as { fault: { code: string } }).fault.code,
        ),
      ]);
      const both = `${clocked.status} ${withdrawn}`;
      expect(['201 work-already-begun', '409 withdrawn']).toContain(both);
      if (clocked.status === 409) expect(clocked.body.code).toBe('work-not-authorised');
      const entries = await shop.sql('select id from clock_entries where work_order_id = $1', [
        work.workOrderId,
      ]);
      expect(entries).toHaveLength(clocked.status === 201 ? 1 : 0);
      outcomes.push(both);
      if (clocked.status === 201) await person.post('/clock/off').expect(200);
    }
    expect(outcomes).toHaveLength(30);
  });

  it('finishing, switching, claiming and planning the same things at once neither jam nor half-happen', async () => {
    const bayId = await floor.bay();
    const [one, two] = [crowd[90] as Person, crowd[91] as Person];
    for (let round = 0; round < 8; round += 1) {
      const [a, b] = [await floor.work(), await floor.work()];
      await one.post('/clock/on', { workOrderId: a.workOrderId }).expect(201);
      const place = {
        bayId,
        technicianId: one.staffId,
        startsAt: `2026-04-0${round + 1}T13:00:00Z`,
        endsAt: `2026-04-0${round + 1}T14:00:00Z`,
      };
      const answers: Answer[] = await Promise.all([
        one.post('/clock/switch', { workOrderId: b.workOrderId }),
        one.post(`/work-orders/${a.workOrderId}/finish`),
        two.post(`/work-orders/${b.workOrderId}/claims`),
        two.post('/clock/on', { workOrderId: b.workOrderId }),
        shop.frontDesk.post('/assignments', { ...place, workOrderId: b.workOrderId }),
        shop.frontDesk.post('/assignments', { ...place, workOrderId: a.workOrderId }),
      ]);
      expect(
        answers.map(({ status }) => status).filter((status) => ![200, 201, 409].includes(status)),
      ).toEqual([]);
      const holders = await shop.sql(
        'select technician_id from claims where work_order_id = $1 and released_at is null',
        [b.workOrderId],
      );
      expect(holders).toHaveLength(1);
      for (const person of [one, two]) await person.post('/clock/off');
    }
  }, 60_000);

  it('none of it came to a deadlock, which the server would have hidden by trying again', async () => {
    // A connection hands in its counts with the first transaction after a second of silence.
    await new Promise((resolve) => setTimeout(resolve, 1100));
    await times(40, async () => shop.frontDesk.get('/bays').expect(200));
    const [row] = await shop.sql<{ deadlocks: number }>(
      'select deadlocks::int from pg_stat_database where datname = current_database()',
    );
    expect(row?.deadlocks).toBe(0);
  });

  it('the database alone, past all our checks, lets one of 40 into a bay hour and takes back-to-back', async () => {
    const bayId = await floor.bay();
    const works: MadeWork[] = [];
    for (let n = 0; n < 42; n += 1) works.push(await floor.work());
    const insert = (n: number, from: string, to: string): Promise<boolean> =>
      shop
        .sql(
          `insert into assignments (shop_id, id, work_order_id, bay_id, technician_id, starts_at, ends_at, is_pinned, made_by, made_at, version)
           values ($1, gen_random_uuid(), $2, $3, $4, $5, $6, true, $4, now(), 1)`,
          [shop.shopId, works[n]?.workOrderId, bayId, crowd[n]?.staffId, from, to],
        )
        .then(
          () => true,
          (error: unknown) => {
            expect(error).toMatchObject({ code: '23P01', constraint: 'assignments_bay_no_overlap' });
            return false;
          },
        );
    const tried = await times(40, (n) => insert(n, '2026-05-01T13:00:00Z', '2026-05-01T14:00:00Z'));
    expect(tried.filter(Boolean)).toHaveLength(1);
    expect(await insert(40, '2026-05-01T14:00:00Z', '2026-05-01T15:00:00Z')).toBe(true);
    expect(await insert(41, '2026-05-01T12:00:00Z', '2026-05-01T13:00:00.001Z')).toBe(false);
  });
});
