import request, { type Response } from 'supertest';
import { personWith, shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

const PIN = '4826';

describe('a technician signs in on a tablet in the bay', () => {
  let shop: ShopUnderTest;
  let token: string;
  let tabletId: string;
  beforeAll(async () => {
    shop = await shopUnderTest();
    const enrolled = await shop.manager.post('/devices', { name: 'Bay 1' }).expect(201);
    token = enrolled.body.deviceToken;
    tabletId = enrolled.body.id;
    for (const person of [shop.technician, shop.manager])
      await shop.manager.put(`/staff/${person.staffId}/pin`, { pin: PIN }, 1).expect(204);
  });
  afterAll(async () => {
    await shop.stop();
  });

  const signIn = async (body: object, deviceToken = token): Promise<Response> =>
    request(`${shop.url}/api/v1`)
      .post('/sessions/pin')
      .set('x-device-token', deviceToken)
      .send({ staffId: shop.technician.staffId, pin: PIN, delivery: 'body', ...body });
  const people = (deviceToken: string) =>
    request(`${shop.url}/api/v1`).get('/devices/current/people').set('x-device-token', deviceToken);

  it('sees the names of whoever has a PIN, and of nobody else', async () => {
    const { body } = await people(token).expect(200);
    expect(body.items).toEqual([
      { id: shop.technician.staffId, displayName: 'Bram' },
      { id: shop.manager.staffId, displayName: 'Orla' },
    ]);
  });

  it('is in with four digits, for one shift', async () => {
    const answer = await signIn({});
    expect(answer.status).toBe(201);
    expect(answer.body).toMatchObject({ expiresInSeconds: 600, staff: { displayName: 'Bram' } });
    const me = personWith(shop.url, shop.technician.staffId, answer.body.accessToken);
    const { body } = await me.get('/sessions/current').expect(200);
    expect(body.how).toBe('pin');
    expect(Date.parse(body.expiresAt) - Date.parse(body.startedAt)).toBe(10 * 3_600_000);
  });

  it('a PIN on anything but an enrolled tablet is worth nothing', async () => {
    const other = await shop.addShop('tablet-yard');
    const there = await other.person('manager');
    const theirs = (await there.post('/devices', { name: 'Elsewhere' }).expect(201)).body.deviceToken;
    for (const wrong of [undefined, 'x', 'x'.repeat(64)]) {
      const refused = await request(`${shop.url}/api/v1`)
        .post('/sessions/pin')
        .set(wrong === undefined ? {} : { 'x-device-token': wrong })
        .send({ staffId: shop.technician.staffId, pin: PIN, delivery: 'body' });
      expect(refused.body).toMatchObject({ status: 401, code: 'device-unknown' });
    }
    expect((await signIn({}, theirs)).body).toMatchObject({ status: 401, code: 'sign-in-failed' });
    expect((await people(theirs)).body.items).toEqual([]);
  });

  it('five wrong PINs lock the PIN, and leave the password alone', async () => {
    const { staffId } = shop.manager;
    await shop.administrator
      .put(`/staff/${staffId}/password`, { password: 'four plain words here' }, 1)
      .expect(204);
    for (let i = 0; i < 5; i += 1) expect((await signIn({ staffId, pin: `900${i}` })).status).toBe(401);
    const locked = await signIn({ staffId });
    expect(locked.body).toMatchObject({ status: 429, code: 'sign-in-locked' });
    expect(Number(locked.headers['retry-after'])).toBeGreaterThan(800);
    expect((await signIn({})).status).toBe(201);
    await request(`${shop.url}/api/v1`)
      .post('/sessions')
      .send({ email: `${staffId}@example.test`, password: 'four plain words here', delivery: 'body' })
      .expect(201);
    // A new PIN is a new start.
    await shop.administrator.put(`/staff/${staffId}/pin`, { pin: '739105' }, 1).expect(204);
    expect((await signIn({ staffId, pin: '739105' })).status).toBe(201);
  });

  it('guesses sent all at once are counted one by one', async () => {
    const person = await shop.addPerson('technician', 'Guessed At');
    await shop.manager.put(`/staff/${person.staffId}/pin`, { pin: PIN }, 1).expect(204);
    const all = await Promise.all(
      Array.from({ length: 10 }, (_, i) => signIn({ staffId: person.staffId, pin: `310${i}` })),
    );
    expect(all.filter((r) => r.status === 401)).toHaveLength(5);
    expect(all.filter((r) => r.status === 429)).toHaveLength(5);
  });

  it('an administrator who also works on cars is a technician there, and nothing more', async () => {
    const both = await shop.addPerson('technician', 'Both');
    const chief = await shop.addPerson('administrator', 'Chief');
    await shop.administrator
      .patch(`/staff/${both.staffId}`, { roles: ['technician', 'administrator'] }, 1)
      .expect(200);
    await shop.administrator.put(`/staff/${both.staffId}/pin`, { pin: PIN }, 1).expect(204);
    await shop.administrator.put(`/staff/${chief.staffId}/pin`, { pin: PIN }, 1).expect(422);
    const { body } = await signIn({ staffId: both.staffId });
    expect(body.staff.roles).toEqual(['technician']);
    await personWith(shop.url, both.staffId, body.accessToken)
      .patch('/shop', { name: 'Mine' }, 1)
      .expect(403);
  });

  it('a PIN has four to eight digits and is none that anybody would try first', async () => {
    const path = `/staff/${shop.secondTechnician.staffId}/pin`;
    for (const pin of [
      '123',
      '123456789',
      '12a4',
      '1234',
      '8765',
      '7890',
      '3210',
      '0000',
      '55555',
      ' 482',
      '',
    ])
      await shop.manager
        .put(path, { pin }, 1)
        .expect(422)
        .expect((r) => expect(r.body.fields[0].pointer).toBe('/pin'));
    for (const pin of ['1235', '1212', '90210748']) await shop.manager.put(path, { pin }, 1).expect(204);
    await shop.manager.put(path, { pin: null }, 1).expect(204);
    expect((await signIn({ staffId: shop.secondTechnician.staffId, pin: '90210748' })).status).toBe(401);
    await shop.frontDesk.put(path, { pin: PIN }, 1).expect(403);
    expect((await signIn({ pin: '1' })).status).toBe(422);
    expect((await signIn({ staffId: 'x' })).status).toBe(422);
  });

  it('the token is shown once; the same request asked again tells it again, though it is kept nowhere', async () => {
    const key = { 'idempotency-key': '"tablet-2"' };
    const first = await shop.manager.post('/devices', { name: 'Bay 2' }, key).expect(201);
    const again = await shop.manager.post('/devices', { name: 'Bay 2' }, key).expect(201);
    expect(again.body).toEqual(first.body);
    expect(again.headers['idempotent-replayed']).toBe('true');
    for (const table of ['devices', 'idempotency_keys', 'audit_entries']) {
      const rows = await shop.sql(`select 1 from ${table} t where t::text like '%' || $1 || '%'`, [
        first.body.deviceToken,
      ]);
      expect(rows).toEqual([]);
    }
    const list = await shop.manager.get('/devices').expect(200);
    expect(JSON.stringify(list.body)).not.toContain(first.body.deviceToken);
    await people(first.body.deviceToken).expect(200);
  });

  it('a tablet that is revoked is out at once, and so is everybody on it', async () => {
    const opened = (await signIn({})).body;
    await shop.technician.delete(`/devices/${tabletId}`).expect(403);
    await shop.manager.delete(`/devices/${tabletId}`).expect(204);
    await shop.manager.delete(`/devices/${tabletId}`).expect(204);
    expect((await people(token)).body.code).toBe('device-unknown');
    expect((await signIn({})).body.code).toBe('device-unknown');
    const refreshed = await request(`${shop.url}/api/v1`)
      .post('/sessions/refresh')
      .send({ delivery: 'body', refreshToken: opened.refreshToken });
    expect(refreshed.body.code).toBe('session-ended');
    const list = (await shop.manager.get('/devices')).body.items;
    expect(list.find((d: { id: string }) => d.id === tabletId).revokedAt).toEqual(expect.any(String));
  });

  it('only a manager enrols, with a name, at a bay of this shop', async () => {
    await shop.technician.post('/devices', { name: 'Mine' }).expect(403);
    await shop.manager.post('/devices', { name: '' }).expect(422);
    await shop.manager.post('/devices', { name: 'Nowhere', bayId: shop.shopId }).expect(404);
    const bay = { number: 1, name: 'Door', kind: 'flat' };
    const { id } = (await shop.manager.post('/bays', bay).expect(201)).body;
    const { body } = await shop.manager.post('/devices', { name: 'Door', bayId: id }).expect(201);
    expect(body.bayId).toBe(id);
    const stranger = await (await shop.addShop('another-tablet-yard')).person('manager');
    await stranger.delete(`/devices/${body.id}`).expect(404);
    await stranger.post('/devices', { name: 'Door', bayId: id }).expect(404);
  });
});
