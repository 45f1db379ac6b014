import type { Response } from 'supertest';
import { shopUnderTest, type Person, type ShopUnderTest } from '../support/shop-under-test.js';

/** The worked example of 49 CFR 565.15(c)(6): a VIN whose check digit is right. */
const VIN = '1G4AH59H45G118341';

describe('the front desk finds and takes in a vehicle', () => {
  let shop: ShopUnderTest;
  let desk: Person;
  beforeAll(async () => {
    shop = await shopUnderTest();
    desk = shop.frontDesk;
  });
  afterAll(async () => {
    await shop.stop();
  });

  const addCustomer = async (
    displayName: string,
    more: object = {},
  ): Promise<{ id: string; version: number }> =>
    (await desk.post('/customers', { displayName, ...more }).expect(201)).body;
  const addVehicle = async (
    customerId: string,
    more: object = {},
  ): Promise<{ id: string; version: number }> =>
    (await desk.post('/vehicles', { customerId, make: 'Merelin', model: 'Strand', ...more }).expect(201))
      .body;
  const names = async (q: string): Promise<string[]> =>
    (await desk.get(`/customers?q=${encodeURIComponent(q)}`).expect(200)).body.items.map(
      (c: { displayName: string }) => c.displayName,
    );
  const plates = async (q: string): Promise<(string | null)[]> =>
    (await desk.get(`/vehicles?q=${encodeURIComponent(q)}`).expect(200)).body.items.map(
      (v: { plate: string | null }) => v.plate,
    );

  it('finds a customer by the beginning of a name, by the middle of one, without accents, mistyped', async () => {
    await addCustomer("Zoë O'Brien-Tarle", { phone: '(202) 555-0123', email: 'zoe@example.test' });
    await addCustomer('Obrecht Linden', { phone: '+44 20 7946 0018' });
    expect(await names('zo')).toEqual(["Zoë O'Brien-Tarle"]);
    expect(await names('ob')).toEqual(['Obrecht Linden', "Zoë O'Brien-Tarle"]);
    expect(await names('OBRIEN')).toEqual(["Zoë O'Brien-Tarle"]);
    expect(await names("o'brien tar")).toEqual(["Zoë O'Brien-Tarle"]);
    expect(await names('brecht')).toEqual(['Obrecht Linden']);
    expect((await names('obrehct'))[0]).toBe('Obrecht Linden');
    expect(await names('zoe@example')).toEqual(["Zoë O'Brien-Tarle"]);
    expect(await names('nobody here')).toEqual([]);
  });

  it('finds a customer by any run of digits of the telephone number, however it is spaced', async () => {
    for (const q of ['555 0123', '5550123', '202-555-0123', '+1 202 555 0123', '(202)555'])
      expect([q, await names(q)]).toEqual([q, ["Zoë O'Brien-Tarle"]]);
    for (const q of ['020 7946 0018', '+44 20 7946', '79460018'])
      expect([q, await names(q)]).toEqual([q, ['Obrecht Linden']]);
    const { body } = await desk.get('/customers?q=zoe');
    expect(body.items[0]).toMatchObject({ phone: '(202) 555-0123', phoneE164: '+12025550123' });
  });

  it('needs two letters or digits, and takes signs for gaps and never for patterns', async () => {
    for (const q of ['z', '%', '_ _', '-- ']) {
      const bad = await desk.get(`/customers?q=${encodeURIComponent(q)}`).expect(422);
      expect(bad.body.fields[0].pointer).toBe('/q');
    }
    expect(await names('%zo%')).toEqual(["Zoë O'Brien-Tarle"]);
    expect(await names("zo'; drop table customers; --")).toEqual([]);
  });

  it('puts whole words before beginnings and beginnings before insides, page by page without a gap', async () => {
    const wanted = ['Quill', 'Anna Quill', 'Quillan', 'Bert Quillan', 'Jonquill'];
    for (const name of [...wanted].reverse()) await addCustomer(name);
    const found = await names('quill');
    expect(found.slice(0, 2)).toEqual(['Quill', 'Anna Quill']);
    expect(found.slice(2, 4)).toEqual(['Quillan', 'Bert Quillan']);
    expect(found[4]).toBe('Jonquill');
    const paged: string[] = [];
    let cursor: string | null = '';
    while (cursor !== null) {
      const page: Response = await desk
        .get(`/customers?q=quill&limit=2${cursor === '' ? '' : `&cursor=${cursor}`}`)
        .expect(200);
      paged.push(...page.body.items.map((c: { displayName: string }) => c.displayName));
      cursor = page.body.nextCursor as string | null;
    }
    expect(paged).toEqual(found);
    expect((await desk.get('/customers?q=quill&cursor=bm9uc2Vuc2U')).body.fields[0].pointer).toBe('/cursor');
    const forged = Buffer.from(JSON.stringify(['words', 1, 'x', 'not-an-id'])).toString('base64url');
    await desk.get(`/customers?q=quill&cursor=${forged}`).expect(422);
    await desk.get(`/customers?cursor=${Buffer.from('["x"]').toString('base64url')}`).expect(422);
  });

  it('without a search lists the newest first, page by page', async () => {
    const first = (await desk.get('/customers?limit=3').expect(200)).body;
    const second = (await desk.get(`/customers?limit=50&cursor=${first.nextCursor}`).expect(200)).body;
    const all = (await desk.get('/customers').expect(200)).body;
    expect(all.items).toEqual([...first.items, ...second.items]);
    expect(all.items[0].displayName).toBe('Quill');
  });

  it('finds a vehicle by plate without its gaps, by VIN, make, model, year and owner', async () => {
    const owner = await addCustomer('Imre Vask');
    await addVehicle(owner.id, {
      plate: 'KY-204 B',
      vin: VIN,
      modelYear: 2005,
      colour: 'green',
      weightKg: 1620,
      heightMm: 1480,
      valueCents: 310_000,
    });
    for (const q of ['ky204', 'KY 204 b', '204-b', VIN.slice(-6), 'merelin strand', '2005 green', 'vask mer'])
      expect([q, await plates(q)]).toEqual([q, ['KY-204 B']]);
    await desk.patch(`/customers/${owner.id}`, { displayName: 'Imre Vaskolin' }, owner.version).expect(200);
    expect(await plates('vaskolin')).toEqual(['KY-204 B']);
  });

  it('finds customers and vehicles together, at most twenty', async () => {
    const { body } = await desk.get('/search?q=vask').expect(200);
    expect(body.customers).toHaveLength(1);
    expect(body.vehicles).toEqual([
      expect.objectContaining({
        plate: 'KY-204 B',
        customer: expect.objectContaining({ displayName: 'Imre Vaskolin' }),
      }),
    ]);
    for (let i = 0; i < 22; i += 1) await addCustomer(`Crowd ${String(i)}`);
    const crowd = (await desk.get('/search?q=crowd').expect(200)).body;
    expect([crowd.customers.length, crowd.vehicles.length]).toEqual([20, 0]);
    const mistyped = (await desk.get('/search?q=vaksolin').expect(200)).body;
    expect(mistyped.vehicles[0].plate).toBe('KY-204 B');
    await desk.get('/search').expect(422);
  });

  it('another shop finds none of it and cannot reach any of it by its id', async () => {
    const stranger = await (await shop.addShop('search-yard')).person('manager');
    const { customers, vehicles } = (await desk.get('/search?q=vask')).body;
    for (const q of ['vask', 'ky204', 'vaksolin'])
      expect((await stranger.get(`/search?q=${q}`)).body).toEqual({ customers: [], vehicles: [] });
    await stranger.get(`/customers/${customers[0].id}`).expect(404);
    await stranger.get(`/vehicles/${vehicles[0].id}`).expect(404);
    await stranger.patch(`/customers/${customers[0].id}`, { note: 'x' }, 1).expect(404);
    await stranger.patch(`/vehicles/${vehicles[0].id}`, { note: 'x' }, 1).expect(404);
    await stranger.get(`/vehicles/${vehicles[0].id}/odometer-readings`).expect(404);
    await stranger
      .post(`/vehicles/${vehicles[0].id}/odometer-readings`, { reading: 1, unit: 'km' })
      .expect(404);
    await stranger.post('/vehicles', { customerId: customers[0].id, make: 'M', model: 'S' }).expect(404);
  });

  it('a VIN that does not check out is told with a reason, and kept when somebody looked again', async () => {
    const owner = await addCustomer('Vin Owner');
    const wrong = VIN.replace('A', 'B');
    const vehicle = { customerId: owner.id, make: 'Merelin', model: 'Coast', vin: wrong };
    const refused = await desk.post('/vehicles', vehicle).expect(422);
    expect(refused.body).toMatchObject({ code: 'vin-not-valid', reason: 'CHECK_DIGIT' });
    expect(refused.body.fields[0].pointer).toBe('/vin');
    expect(refused.body.detail).toContain('vinAccepted');
    const kept = await desk.post('/vehicles', { ...vehicle, vinAccepted: true }).expect(201);
    expect(kept.body).toMatchObject({ vin: wrong, vinVerdict: 'reject' });
    // Before model year 1981 there was no standard, so the same number is no longer wrong.
    const old = await desk.patch(`/vehicles/${kept.body.id}`, { modelYear: 1972 }, 1).expect(200);
    expect(old.body).toMatchObject({ vinVerdict: 'accept-unchecked', version: 2 });
    const again = await desk.patch(`/vehicles/${kept.body.id}`, { modelYear: 1999 }, 2).expect(422);
    expect(again.body.code).toBe('vin-not-valid');
    await desk.post('/vehicles', { ...vehicle, vin: '- -', vinAccepted: true }).expect(422);
  });

  it('short chassis numbers are accepted, and one VIN belongs to one vehicle', async () => {
    const owner = await addCustomer('Old Iron');
    const early = await addVehicle(owner.id, { vin: ' ba7-1234 q ', modelYear: 1962 });
    expect(early).toMatchObject({ vin: 'BA7-1234 Q', vinVerdict: 'accept-unchecked' });
    const other = await desk
      .post('/vehicles', { customerId: owner.id, make: 'Merelin', model: 'Strand', vin: VIN.toLowerCase() })
      .expect(409);
    expect(other.body).toMatchObject({ code: 'vin-taken', vehicleId: expect.any(String) });
    await desk.patch(`/vehicles/${early.id}`, { vin: VIN }, early.version).expect(409);
    const check = await desk.get(`/vin-checks?vin=${VIN}&modelYear=2005`).expect(200);
    expect(check.body).toMatchObject({ verdict: 'valid', checkDigit: '4', modelYears: [2005] });
    await desk.get('/vin-checks').expect(422);
  });

  it('the odometer only goes up, unless somebody looked again, and no reading is ever lost', async () => {
    const vehicle = await addVehicle((await addCustomer('Far Driver')).id, {
      odometer: { reading: 100_000, unit: 'km' },
    });
    const path = `/vehicles/${vehicle.id}/odometer-readings`;
    shop.clock.passMinutes(60);
    await shop.technician.post(path, { reading: 62_137, unit: 'mi' }).expect(201);
    shop.clock.passMinutes(60);
    const back = await desk.post(path, { reading: 61_000, unit: 'mi' }).expect(422);
    expect(back.body).toMatchObject({ code: 'odometer-went-back', lastReading: 62_137, lastUnit: 'mi' });
    await desk.post(path, { reading: 61_000, unit: 'mi', confirmed: true }).expect(201);
    const { items } = (await desk.get(path).expect(200)).body;
    expect(items.map((r: { reading: number }) => r.reading)).toEqual([61_000, 62_137, 100_000]);
    const page = (await desk.get(`${path}?limit=2`)).body;
    const rest = (await desk.get(`${path}?limit=2&cursor=${page.nextCursor}`)).body;
    expect([...page.items, ...rest.items]).toEqual(items);
    const [trace] = await shop.sql(
      `select detail from audit_entries where subject_id = $1 and action = 'vehicle.odometer-went-back'`,
      [vehicle.id],
    );
    expect(trace).toEqual({ detail: { from: '62137 mi', to: '61000 mi' } });
    expect((await desk.get(`/vehicles/${vehicle.id}`)).body.odometer.reading).toBe(61_000);
    await expect(shop.sql('update odometer_readings set reading = 1')).rejects.toThrow('never changed');
    await desk.post(path, { reading: -1, unit: 'furlong' }).expect(422);
  });

  it('a vehicle changes customers, and who had it before stays known', async () => {
    const [before, after] = [await addCustomer('First Owner'), await addCustomer('Second Owner')];
    const vehicle = await addVehicle(before.id, { plate: 'SW 1' });
    shop.clock.passMinutes(5);
    const path = `/vehicles/${vehicle.id}/ownerships`;
    await shop.technician.post(path, { customerId: after.id }).expect(403);
    const moved = await desk.post(path, { customerId: after.id }).expect(201);
    expect(moved.body.customer).toEqual({ id: after.id, displayName: 'Second Owner' });
    expect(moved.body.ownerships.map((o: { displayName: string }) => o.displayName)).toEqual([
      'Second Owner',
      'First Owner',
    ]);
    expect(await plates('second owner sw1')).toEqual(['SW 1']);
    expect(await plates('first owner')).toEqual([]);
    await desk.post(path, { customerId: after.id }).expect(422);
    await desk.post(path, { customerId: vehicle.id }).expect(404);
  });

  it('changes need the version that they are based on', async () => {
    const customer = await addCustomer('Versioned');
    const path = `/customers/${customer.id}`;
    const read = await desk.get(path).expect(200);
    expect(read.headers['etag']).toBe('"1"');
    await desk.get(path, { 'if-none-match': '"1"' }).expect(304);
    const changed = await desk.patch(path, { phone: '202 555 0177', note: 'rings twice' }, 1).expect(200);
    expect(changed.body).toMatchObject({ phoneE164: '+12025550177', note: 'rings twice', version: 2 });
    await desk.patch(path, { note: null }, 1).expect(412);
    const missing = await desk.patch(path, { note: null }, 2).unset('if-match').expect(428);
    expect(missing.body.code).toBe('version-needed');
    const vehicle = await addVehicle(customer.id);
    await shop.technician.patch(`/vehicles/${vehicle.id}`, { weightKg: 1700 }, 1).expect(200);
    await shop.technician.patch(`/vehicles/${vehicle.id}`, { weightKg: 1710 }, 1).expect(412);
    await shop.technician.patch(path, { note: 'x' }, 2).expect(403);
  });

  it('names every bad field, and saves nothing', async () => {
    const before = (await desk.get('/vehicles?limit=200')).body.items.length;
    const bad = await desk
      .post('/vehicles', {
        customerId: 'x',
        make: '',
        model: 'S',
        weightKg: 5,
        odometer: { unit: 'km' },
        wings: 2,
      })
      .expect(422);
    expect(bad.body.fields.map((f: { pointer: string }) => f.pointer).sort()).toEqual([
      '/customerId',
      '/make',
      '/odometer/reading',
      '/weightKg',
      '/wings',
    ]);
    await desk.post('/customers', { displayName: '  ', email: 'x' }).expect(422);
    expect((await desk.get('/vehicles?limit=200')).body.items).toHaveLength(before);
  });
});
