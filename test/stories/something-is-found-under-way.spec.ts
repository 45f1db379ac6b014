import { aCar, aSoldLine, aStay, aTemplate, aWorkOrder, type Car } from '../support/cars.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

const pointers = (body: unknown): string[] =>
  (body as { fields: { pointer: string }[] }).fields.map((f) => f.pointer);
const NOBODY = '0198a000-0000-7000-8000-000000000000';
const odometer = { reading: 148_300, unit: 'km' };

describe('something is found under way', () => {
  let shop: ShopUnderTest;
  let car: Car;
  beforeAll(async () => {
    shop = await shopUnderTest();
  });
  beforeEach(async () => {
    car = await aCar(shop);
  });
  afterAll(async () => {
    await shop.stop();
  });

  const seized = {
    title: 'Caliper slide seized, front right',
    verdict: 'repair',
    mayDrive: 'to-the-shop-only',
    explanation: 'The lower slide does not move any more.',
    consequence: 'The pads wear on one side and the car pulls.',
  };
  const found = async (stayId: string, body: object): Promise<{ id: string; version: number }> =>
    (await shop.technician.post(`/repair-orders/${stayId}/findings`, body).expect(201)).body as {
      id: string;
      version: number;
    };

  it('is recorded with the work order that was under way, and told to the desk', async () => {
    const stay = await aStay(shop, car);
    const work = await aWorkOrder(shop, stay.id);
    const made = await shop.technician
      .post(`/repair-orders/${stay.id}/findings`, { ...seized, workOrderId: work.workOrderId })
      .expect(201);
    expect(made.body).toMatchObject({
      ...seized,
      repairOrderId: stay.id,
      vehicleId: car.vehicleId,
      observationId: null,
      workOrderId: work.workOrderId,
      word: 'Repair',
      foundByName: 'Bram',
      photos: [],
      lines: [],
      decision: null,
      isWithdrawn: false,
      version: 1,
    });
    const list = await shop.frontDesk.get(`/repair-orders/${stay.id}/findings`).expect(200);
    expect(list.body.items).toEqual([made.body]);
    const events = await shop.sql(
      `select kind, subjects from live_events where kind = 'finding' order by id desc limit 1`,
    );
    expect(events).toEqual([
      { kind: 'finding', subjects: { findingId: made.body.id, repairOrderId: stay.id } },
    ]);
  });

  it('lists the unsafe first, with the lines that answer and what the owner said last', async () => {
    const stay = await aStay(shop, car);
    const worn = await found(stay.id, { ...seized, title: 'Pads' });
    const unsafe = await found(stay.id, { ...seized, title: 'Hose', mayDrive: 'no' });
    const first = await aSoldLine(shop, stay.id, {
      title: 'Pads, both',
      findingId: worn.id,
      answer: 'approved',
    });
    shop.clock.passMinutes(10);
    const second = await aSoldLine(shop, stay.id, {
      title: 'Pads, later',
      findingId: worn.id,
      answer: 'deferred',
      lookAgainOn: '2026-06-01',
    });
    await aSoldLine(shop, stay.id, { title: 'Draft', findingId: unsafe.id, sent: false });
    const { body } = await shop.technician.get(`/repair-orders/${stay.id}/findings`).expect(200);
    expect(body.items).toMatchObject([
      { id: unsafe.id, word: 'Unsafe', lines: [{ title: 'Draft', isSent: false }], decision: null },
      {
        id: worn.id,
        word: 'Repair',
        lines: [
          { lineId: first.lineId, title: 'Pads, both', revisionNumber: 1, isSent: true },
          { lineId: second.lineId, title: 'Pads, later', revisionNumber: 2, isSent: true },
        ],
        decision: {
          lineId: second.lineId,
          answer: 'deferred',
          channel: 'phone',
          decidedBy: 'Ines Halloway',
          lookAgainOn: '2026-06-01',
        },
      },
    ]);
  });

  it('is worded better on the version that was read, or withdrawn when it was a mistake', async () => {
    const stay = await aStay(shop, car);
    const { id } = await found(stay.id, seized);
    const path = `/findings/${id}`;
    const better = await shop.manager
      .patch(path, { explanation: 'It is stuck.', mayDrive: 'no' }, 1)
      .expect(200);
    expect(better.body).toMatchObject({
      explanation: 'It is stuck.',
      word: 'Unsafe',
      title: seized.title,
      version: 2,
    });
    expect(better.headers['etag']).toBe('"2"');
    await shop.manager.patch(path, { title: 'x' }, 1).expect(412);
    await shop.technician.patch(path, { withdrawn: true }, 2).expect(200);
    const list = await shop.frontDesk.get(`/repair-orders/${stay.id}/findings`);
    expect(list.body.items).toEqual([]);
    const back = await shop.technician.patch(path, { withdrawn: false }, 3).expect(200);
    expect(back.body.isWithdrawn).toBe(false);
    await aSoldLine(shop, stay.id, { title: 'New slide', findingId: id });
    const used = await shop.technician.patch(path, { withdrawn: true }, 4).expect(409);
    expect(used.body).toMatchObject({ code: 'finding-in-use', lines: [{ title: 'New slide' }] });
  });

  it('of an inspection changes its words only; the rest follows the observation', async () => {
    const stay = await aStay(shop, car);
    const template = await aTemplate(shop);
    const walk = await shop.technician.post(`/repair-orders/${stay.id}/inspections`, {
      templateId: template.id,
    });
    const lamp = template.stations[0]?.checkpoints[1]?.id ?? '';
    const put = `/inspections/${walk.body.id}/observations/${lamp}`;
    await shop.technician.put(put, { verdict: 'repair', mayDrive: 'yes' }, 1).expect(412);
    const { id } = await withoutVersion(put);
    const refused = await shop.technician
      .patch(
        `/findings/${id}`,
        { verdict: 'watch', mayDrive: 'yes', lookAgainOn: '2026-09-01', withdrawn: true },
        1,
      )
      .expect(422);
    expect(pointers(refused.body)).toEqual(['/verdict', '/mayDrive', '/lookAgainOn', '/withdrawn']);
    await shop.technician.patch(`/findings/${id}`, { title: 'Both rear lamps' }, 1).expect(200);
  });

  async function withoutVersion(path: string): Promise<{ id: string }> {
    const response = await fetch(`${shop.url}/api/v1${path}`, {
      method: 'PUT',
      headers: { authorization: `Bearer ${shop.technician.token}`, 'content-type': 'application/json' },
      body: JSON.stringify({ verdict: 'repair', mayDrive: 'yes' }),
    });
    expect(response.status).toBe(200);
    return { id: ((await response.json()) as { findingId: string }).findingId };
  }

  it('stays with the vehicle when it leaves: watched, deferred, declined, never decided', async () => {
    const stay = await aStay(shop, car);
    const title = (t: string): object => ({ ...seized, title: t });
    const declined = await found(stay.id, title('declined'));
    const deferred = await found(stay.id, title('deferred'));
    const done = await found(stay.id, title('done'));
    const mistake = await found(stay.id, title('mistake'));
    await found(stay.id, title('undecided'));
    await found(stay.id, { title: 'watched', verdict: 'watch', mayDrive: 'yes', lookAgainOdometer: 160_000 });
    await aSoldLine(shop, stay.id, { findingId: declined.id, answer: 'declined' });
    await aSoldLine(shop, stay.id, { findingId: deferred.id, answer: 'deferred', lookAgainOn: '2026-08-15' });
    await aWorkOrder(shop, stay.id, { findingId: done.id, at: 'checked' });
    await shop.technician.patch(`/findings/${mistake.id}`, { withdrawn: true }, 1).expect(200);
    await shop.frontDesk.post(`/repair-orders/${stay.id}/pick-up`, { odometer }).expect(200);
    const { body } = await shop.frontDesk.get(`/vehicles/${car.vehicleId}/findings`).expect(200);
    const standings = (body.items as { title: string; standing: string; repairOrderNumber: number }[]).map(
      (f) => [f.title, f.standing, f.repairOrderNumber],
    );
    expect(standings.sort()).toEqual(
      [
        ['declined', 'declined', stay.number],
        ['deferred', 'deferred', stay.number],
        ['undecided', 'undecided', stay.number],
        ['watched', 'watched', stay.number],
      ].sort(),
    );
    expect(body.items).toContainEqual(
      expect.objectContaining({ title: 'deferred', lookAgainOn: '2026-08-15', lookAgainOdometer: null }),
    );
    expect(body.items).toContainEqual(
      expect.objectContaining({ title: 'watched', lookAgainOdometer: 160_000 }),
    );
    await shop.technician.patch(`/findings/${declined.id}`, { title: 'x' }, 1).expect(409);
  });

  it.each<[string, object, string[]]>([
    ['nothing', {}, ['/mayDrive', '/title', '/verdict']],
    ['a sound part', { ...seized, verdict: 'sound' }, ['/verdict']],
    [
      'watch without a time to look again',
      { ...seized, verdict: 'watch', mayDrive: 'yes' },
      ['/lookAgainOn'],
    ],
    [
      'watch that forbids driving',
      { ...seized, verdict: 'watch', mayDrive: 'no', lookAgainOn: '2026-09-01' },
      ['/mayDrive'],
    ],
    ['a blank title', { ...seized, title: '   ' }, ['/title']],
    ['a price', { ...seized, cents: 100 }, ['/cents']],
  ])('is refused as %s', async (_name, body, expected) => {
    const stay = await aStay(shop, car);
    const bad = await shop.technician.post(`/repair-orders/${stay.id}/findings`, body).expect(422);
    expect(pointers(bad.body).sort()).toEqual(expected);
    expect((await shop.frontDesk.get(`/repair-orders/${stay.id}/findings`)).body.items).toEqual([]);
  });

  it('goes to a work order of this stay only, and a changed one must still make sense', async () => {
    const stay = await aStay(shop, car);
    const other = await aStay(shop, await aCar(shop));
    const work = await aWorkOrder(shop, other.id);
    const record = (id: string, body: object) => shop.technician.post(`/repair-orders/${id}/findings`, body);
    await record(stay.id, { ...seized, workOrderId: work.workOrderId }).expect(404);
    await record(NOBODY, seized).expect(404);
    const { id } = await found(stay.id, seized);
    const unclear = await shop.technician.patch(`/findings/${id}`, { verdict: 'watch' }, 1).expect(422);
    expect(pointers(unclear.body)).toEqual(['/lookAgainOn']);
    await shop.technician.patch(`/findings/${NOBODY}`, { title: 'x' }, 1).expect(404);
    await shop.frontDesk.get(`/repair-orders/${NOBODY}/findings`).expect(404);
    await shop.frontDesk.get(`/vehicles/${NOBODY}/findings`).expect(404);
  });

  it('is the floor’s to record, and nobody else’s business in another shop', async () => {
    const stay = await aStay(shop, car);
    await shop.frontDesk.post(`/repair-orders/${stay.id}/findings`, seized).expect(403);
    const { id } = await found(stay.id, seized);
    await shop.frontDesk.patch(`/findings/${id}`, { title: 'x' }, 1).expect(403);
    const stranger = await (await shop.addShop(`yard-${stay.number}`)).person('technician');
    await stranger.patch(`/findings/${id}`, { title: 'x' }, 1).expect(404);
    await stranger.post(`/repair-orders/${stay.id}/findings`, seized).expect(404);
    await stranger.get(`/vehicles/${car.vehicleId}/findings`).expect(404);
  });
});
