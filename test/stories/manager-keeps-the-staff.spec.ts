import { ROLES, type Role } from '#libs/access';
import { shopUnderTest, type Person, type ShopUnderTest } from '../support/shop-under-test.js';

describe('the manager keeps the staff', () => {
  let shop: ShopUnderTest;
  beforeAll(async () => {
    shop = await shopUnderTest();
  });
  afterAll(async () => {
    await shop.stop();
  });

  const add = async (
    by: Person,
    displayName: string,
    roles: Role[],
  ): Promise<{ id: string; version: number }> =>
    (await by.post('/staff', { displayName, roles }).expect(201)).body;

  it('adds somebody, without ever seeing a hash of anything', async () => {
    const { body } = await shop.manager
      .post('/staff', {
        displayName: ' Ilse Marrow ',
        email: 'Ilse@Example.test',
        roles: ['technician', 'technician'],
      })
      .expect(201);
    expect(body).toEqual({
      id: expect.any(String),
      displayName: 'Ilse Marrow',
      email: 'ilse@example.test',
      roles: ['technician'],
      isActive: true,
      hasPassword: false,
      hasPin: false,
      lockedUntil: null,
      pinLockedUntil: null,
      version: 1,
    });
    const one = await shop.manager.get(`/staff/${body.id}`).expect(200);
    expect(one.headers['etag']).toBe('"1"');
    const list = await shop.manager.get('/staff').expect(200);
    expect(list.body.items).toContainEqual(body);
    expect(JSON.stringify(list.body)).not.toContain('argon2');
    const twice = await shop.manager
      .post('/staff', { displayName: 'Other', email: 'ilse@example.test', roles: ['technician'] })
      .expect(409);
    expect(twice.body.code).toBe('email-taken');
  });

  it.each([
    ['front-desk', 403],
    ['technician', 403],
    ['manager', 200],
    ['administrator', 200],
  ] as const)('%s asking for the staff list gets %i', async (role, status) => {
    const person = await shop.addPerson(role, role);
    await person.get('/staff').expect(status);
  });

  it('who may make and change whom, as a table', async () => {
    const outcome: Record<string, string> = {};
    for (const [name, by] of [
      ['manager', shop.manager],
      ['administrator', shop.administrator],
    ] as const)
      for (const role of ROLES) {
        const made = await by.post('/staff', { displayName: `${name} makes ${role}`, roles: [role] });
        const target = await shop.addPerson(role, role);
        const path = `/staff/${target.staffId}`;
        const renamed = await by.patch(path, { displayName: 'Renamed' }, 1);
        const { version } = (await by.get(path)).body;
        const promoted = await by.patch(path, { roles: ['administrator'] }, version);
        const fresh = await shop.addPerson(role, role);
        const word = await by.put(`/staff/${fresh.staffId}/password`, { password: 'four plain words' }, 1);
        outcome[`${name} → ${role}`] = [made, renamed, promoted, word].map((r) => r.status).join(' ');
      }
    // make · change · turn into an administrator · set the password
    expect(outcome).toEqual({
      'manager → front-desk': '201 200 403 204',
      'manager → technician': '201 200 403 204',
      'manager → manager': '201 200 403 204',
      'manager → administrator': '403 403 403 403',
      'administrator → front-desk': '201 200 200 204',
      'administrator → technician': '201 200 200 204',
      'administrator → manager': '201 200 200 204',
      'administrator → administrator': '201 200 200 204',
    });
  });

  it('nobody else sets a password for somebody else', async () => {
    const path = `/staff/${shop.secondTechnician.staffId}/password`;
    await shop.technician.put(path, { password: 'four plain words' }, 1).expect(403);
    await shop.frontDesk.put(path, { password: 'four plain words' }, 1).expect(403);
    // Nor the own first one: a PIN alone would be enough to do it.
    await shop.secondTechnician.put(path, { password: 'four plain words' }, 1).expect(403);
  });

  it('a password has ten characters and is none that anybody would try first', async () => {
    const path = `/staff/${shop.technician.staffId}/password`;
    const email = `${shop.technician.staffId}@example.test`;
    for (const password of [
      'short',
      'aaaaaaaaaaaa',
      '1234567890',
      'abcdefghijkl',
      'abababababab',
      email,
      42,
      null,
    ])
      await shop.manager
        .put(path, { password }, 1)
        .expect(422)
        .expect((r) => expect(r.body.fields[0].pointer).toBe('/password'));
    await shop.manager.put(path, { password: 'ten chars!' }, 1).expect(204);
    await shop.manager.put(path, { password: 'пароль из слов' }, 1).expect(204);
  });

  it('the last administrator stays one, also when two step down at once', async () => {
    const other = await shop.addShop('last-yard');
    const [first, second] = [await other.person('administrator'), await other.person('administrator')];
    const answers = await Promise.all([
      first.patch(`/staff/${first.staffId}`, { roles: ['manager'] }, 1),
      second.patch(`/staff/${second.staffId}`, { isActive: false }, 1),
    ]);
    expect(answers.map((a) => a.status).sort()).toEqual([200, 409]);
    expect(answers.find((a) => a.status === 409)?.body.code).toBe('last-administrator');
  });

  it('changes need the version that they are based on, and a person of this shop', async () => {
    const { id } = await add(shop.manager, 'Versioned', ['technician']);
    await shop.manager.patch(`/staff/${id}`, { displayName: 'Changed' }, 1).expect(200);
    const stale = await shop.manager.patch(`/staff/${id}`, { isActive: false }, 1).expect(412);
    expect(stale.body).toMatchObject({ code: 'stale-version', currentVersion: 2 });
    const stranger = await (await shop.addShop('staff-yard')).person('administrator');
    await stranger.get(`/staff/${id}`).expect(404);
    await stranger.patch(`/staff/${id}`, { displayName: 'Mine' }, 2).expect(404);
    await stranger.put(`/staff/${id}/password`, { password: 'four plain words' }, 1).expect(404);
    await stranger.put(`/staff/${id}/pin`, { pin: '4826' }, 1).expect(404);
    await shop.manager.patch(`/staff/${id}`, { isActive: false }, 2).expect(200);
    const gone = await shop.manager.put(`/staff/${id}/pin`, { pin: '4826' }, 1).expect(409);
    expect(gone.body.code).toBe('staff-inactive');
  });

  it('names every bad field', async () => {
    const bad = await shop.manager
      .post('/staff', { displayName: '', email: 'x', roles: ['boss'], pin: '1' })
      .expect(422);
    expect(bad.body.fields.map((f: { pointer: string }) => f.pointer).sort()).toEqual([
      '/displayName',
      '/email',
      '/pin',
      '/roles',
    ]);
    await shop.manager.post('/staff', { displayName: 'No Role', roles: [] }).expect(422);
  });
});

describe('the administrator keeps the shop', () => {
  let shop: ShopUnderTest;
  beforeAll(async () => {
    shop = await shopUnderTest();
  });
  afterAll(async () => {
    await shop.stop();
  });

  it('everybody reads the settings, the administrator alone changes them', async () => {
    const read = await shop.technician.get('/shop').expect(200);
    expect(read.body).toMatchObject({
      slug: 'test-yard',
      timeZone: 'America/New_York',
      currency: 'USD',
      version: 1,
    });
    await shop.manager.patch('/shop', { name: 'Mine' }, 1).expect(403);
    const changed = await shop.administrator
      .patch('/shop', { name: 'Kestrel Yard II', timeZone: 'Europe/Lisbon', suppliesCapCents: null }, 1)
      .expect(200);
    expect(changed.body).toMatchObject({ name: 'Kestrel Yard II', suppliesCapCents: null, version: 2 });
    await shop.administrator.patch('/shop', { name: 'Again' }, 1).expect(412);
    await shop.technician.get('/shop', { 'if-none-match': '"2"' }).expect(304);
  });

  it('settings that cannot be are refused together', async () => {
    const bad = await shop.administrator
      .patch(
        '/shop',
        {
          timeZone: 'Atlantis/Deep',
          currency: 'JPY',
          dayStartsMinute: 900,
          dayEndsMinute: 800,
          suppliesFloorCents: 500,
          suppliesCapCents: 100,
        },
        2,
      )
      .expect(422);
    expect(bad.body.fields.map((f: { pointer: string }) => f.pointer)).toEqual([
      '/timeZone',
      '/currency',
      '/dayEndsMinute',
      '/suppliesCapCents',
    ]);
    await shop.administrator.patch('/shop', { slug: 'other' }, 2).expect(422);
    expect((await shop.technician.get('/shop')).body.version).toBe(2);
  });

  it('one labour rate is always the default', async () => {
    const add = { name: 'Diagnosis', centsPerHour: 14_900, isDefault: true };
    const made = (await shop.administrator.post('/labour-rates', add).expect(201)).body;
    const { items } = (await shop.technician.get('/labour-rates').expect(200)).body;
    expect(items.map((r: { name: string; isDefault: boolean }) => [r.name, r.isDefault])).toEqual([
      ['Diagnosis', true],
      ['General repair', false],
    ]);
    await shop.administrator.patch(`/labour-rates/${made.id}`, { isDefault: false }, 1).expect(422);
    const general = items[1];
    await shop.administrator
      .patch(`/labour-rates/${general.id}`, { isDefault: true }, general.version)
      .expect(200);
    expect((await shop.technician.get('/labour-rates')).body.items[0].name).toBe('General repair');
    await shop.administrator.patch(`/labour-rates/${made.id}`, { centsPerHour: 15_000 }, 1).expect(412);
    const taken = await shop.administrator.post('/labour-rates', { ...add, isDefault: false }).expect(409);
    expect(taken.body.code).toBe('name-taken');
    await shop.manager.post('/labour-rates', { name: 'X', centsPerHour: 1 }).expect(403);
    await shop.administrator.post('/labour-rates', { name: 'X', centsPerHour: 1.5 }).expect(422);
  });

  it('a tax falls on what the shop says, and ends by falling on nothing', async () => {
    const { body } = await shop.administrator
      .post('/taxes', { name: 'County', ratePpm: 5_000, appliesTo: ['part', 'labour', 'part'] })
      .expect(201);
    expect(body).toMatchObject({ appliesTo: ['part', 'labour'], version: 1 });
    const ended = await shop.administrator.patch(`/taxes/${body.id}`, { appliesTo: [] }, 1).expect(200);
    expect(ended.body).toMatchObject({ appliesTo: [], version: 2 });
    expect((await shop.frontDesk.get('/taxes').expect(200)).body.items).toHaveLength(2);
    await shop.administrator
      .post('/taxes', { name: 'Odd', ratePpm: 1_000_001, appliesTo: ['air'] })
      .expect(422);
    const stranger = await (await shop.addShop('tax-yard')).person('administrator');
    await stranger.patch(`/taxes/${body.id}`, { ratePpm: 0 }, 2).expect(404);
  });
});
