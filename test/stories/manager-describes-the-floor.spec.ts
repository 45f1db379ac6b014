import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

type Body = Record<string, never> & { fields: { pointer: string }[] };
const pointers = (body: unknown): string[] => (body as Body).fields.map((f) => f.pointer);
const NOBODY = '0198a000-0000-7000-8000-000000000000';

describe('the manager describes the floor', () => {
  let shop: ShopUnderTest;
  beforeAll(async () => {
    shop = await shopUnderTest();
  });
  afterAll(async () => {
    await shop.stop();
  });

  it('counts the special tools, and two cannot carry one name', async () => {
    const press = await shop.manager.post('/special-tools', { name: 'Bush press set', units: 2 }).expect(201);
    expect(press.body).toMatchObject({ name: 'Bush press set', units: 2, version: 1 });
    await shop.manager.post('/special-tools', { name: 'Alignment heads', units: 1 }).expect(201);
    const list = await shop.technician.get('/special-tools').expect(200);
    expect(list.body.items.map((t: { name: string }) => t.name)).toEqual([
      'Alignment heads',
      'Bush press set',
    ]);
    const taken = await shop.manager.post('/special-tools', { name: 'Bush press set', units: 1 }).expect(409);
    expect(taken.body.code).toBe('name-taken');
  });

  it('changes how many there are, on the version that was read', async () => {
    const { body } = await shop.manager.get('/special-tools');
    const { id, version } = body.items[1];
    const changed = await shop.manager.patch(`/special-tools/${id}`, { units: 3 }, version).expect(200);
    expect(changed.body).toMatchObject({ units: 3, version: 2 });
    expect(changed.headers['etag']).toBe('"2"');
    const stale = await shop.manager.patch(`/special-tools/${id}`, { units: 4 }, version).expect(412);
    expect(stale.body).toMatchObject({ code: 'stale-version', currentVersion: 2 });
    await shop.manager.patch(`/special-tools/${NOBODY}`, { units: 4 }, 1).expect(404);
  });

  it('gives a technician skills, one with a certificate that ends', async () => {
    const skills = [
      { skill: '609', certificate: 'KY-609-118', validUntil: '2027-02-28' },
      { skill: 'brakes', certificate: null, validUntil: null },
    ];
    const path = `/technicians/${shop.technician.staffId}/skills`;
    const put = await shop.manager.put(path, { skills: [skills[1], skills[0]] }, '*').expect(200);
    expect(put.body).toEqual({ skills });
    await shop.manager.put(path, { skills: [{ skill: 'brakes' }] }, '*').expect(200);
    const read = await shop.frontDesk.get(path).expect(200);
    expect(read.body.skills).toEqual([skills[1]]);
    const audit = await shop.sql<{ action: string }>(
      `select action from audit_entries where subject_id = $1 and action = 'technician.set-skills'`,
      [shop.technician.staffId],
    );
    expect(audit).toHaveLength(2);
  });

  it('writes the weekly shifts with the break at noon', async () => {
    const day = { fromMinute: 450, toMinute: 990, breakFromMinute: 720, breakToMinute: 750 };
    const path = `/technicians/${shop.technician.staffId}/shifts`;
    const shifts = [1, 2, 3].map((weekday) => ({ weekday, ...day }));
    const put = await shop.manager.put(path, { shifts: [...shifts].reverse() }, '*').expect(200);
    expect(put.body).toEqual({ shifts });
    const list = await shop.technician.get('/technicians').expect(200);
    expect(list.body.items.map((t: { displayName: string }) => t.displayName)).toEqual(['Bram', 'Saffi']);
    expect(list.body.items[0].shifts).toEqual(shifts);
    await shop.manager.put(path, { shifts: [] }, '*').expect(200, { shifts: [] });
  });

  it('is told what is wrong with a shift, field by field, and nothing is saved', async () => {
    const path = `/technicians/${shop.technician.staffId}/shifts`;
    const bad = await shop.manager
      .put(
        path,
        {
          shifts: [
            { weekday: 1, fromMinute: 990, toMinute: 450 },
            { weekday: 2, fromMinute: 450, toMinute: 990, breakFromMinute: 400, breakToMinute: 430 },
            { weekday: 2, fromMinute: 450, toMinute: 990, breakToMinute: 750 },
          ],
        },
        '*',
      )
      .expect(422);
    expect(pointers(bad.body)).toEqual([
      '/shifts/0/toMinute',
      '/shifts/1/breakFromMinute',
      '/shifts/2/breakFromMinute',
      '/shifts/2/weekday',
    ]);
    const shape = await shop.manager.put(
      path,
      { shifts: [{ weekday: 8, fromMinute: -1, toMinute: 1.5 }] },
      '*',
    );
    expect(shape.status).toBe(422);
    expect(pointers(shape.body).sort()).toEqual([
      '/shifts/0/fromMinute',
      '/shifts/0/toMinute',
      '/shifts/0/weekday',
    ]);
    expect((await shop.manager.get(path)).body.shifts).toEqual([]);
  });

  it.each<[string, object, string]>([
    ['a skill twice', { skills: [{ skill: 'a' }, { skill: 'a' }] }, '/skills/1/skill'],
    [
      'a day that does not exist',
      { skills: [{ skill: 'a', validUntil: '2026-02-31' }] },
      '/skills/0/validUntil',
    ],
    ['a list in the list', { skills: [[]] }, '/skills'],
    ['no list', {}, '/skills'],
    ['a NUL in a text', { skills: [{ skill: 'a\u0000b' }] }, '/skills/0/skill'],
    ['a field that nobody knows', { skills: [], level: 3 }, '/level'],
  ])('refuses skills with %s', async (_name, body, pointer) => {
    const bad = await shop.manager
      .put(`/technicians/${shop.technician.staffId}/skills`, body, '*')
      .expect(422);
    expect(pointers(bad.body)).toEqual([pointer]);
  });

  it('knows no technician who is none, and lets nobody else write', async () => {
    const skills = { skills: [] };
    await shop.manager.put(`/technicians/${shop.frontDesk.staffId}/skills`, skills, '*').expect(404);
    await shop.manager.get(`/technicians/${NOBODY}/shifts`).expect(404);
    await shop.technician.put(`/technicians/${shop.technician.staffId}/skills`, skills, '*').expect(403);
    await shop.frontDesk.post('/special-tools', { name: 'x', units: 1 }).expect(403);
    const other = await shop.addShop('second-yard');
    const stranger = await other.person('manager');
    await stranger.put(`/technicians/${shop.technician.staffId}/skills`, skills, '*').expect(404);
    await stranger.get(`/technicians/${shop.technician.staffId}/skills`).expect(404);
  });

  it('reads one bay; an unchanged one costs no body', async () => {
    const made = await shop.manager.post('/bays', { number: 7, name: 'Back wall', kind: 'flat' }).expect(201);
    const one = await shop.technician.get(`/bays/${made.body.id}`).expect(200);
    expect(one.body).toEqual(made.body);
    await shop.technician.get(`/bays/${made.body.id}`, { 'if-none-match': '"1"' }).expect(304);
    await shop.technician.get(`/bays/${NOBODY}`).expect(404);
    await shop.technician.get('/bays/no-id').expect(404);
  });
});
