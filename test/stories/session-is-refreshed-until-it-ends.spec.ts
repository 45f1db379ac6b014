import request, { type Response } from 'supertest';
import { personWith, shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

const PASSWORD = 'four plain words here';

describe('a session is refreshed until it ends', () => {
  let shop: ShopUnderTest;
  let email: string;
  beforeAll(async () => {
    shop = await shopUnderTest();
    email = `${shop.technician.staffId}@example.test`;
    await shop.manager
      .put(`/staff/${shop.technician.staffId}/password`, { password: PASSWORD }, 1)
      .expect(204);
  });
  afterAll(async () => {
    await shop.stop();
  });

  const api = () => request(`${shop.url}/api/v1`);
  const signIn = async (delivery: 'body' | 'cookie' = 'body'): Promise<Response> =>
    api().post('/sessions').send({ email, password: PASSWORD, delivery }).expect(201);
  const refresh = async (refreshToken?: string): Promise<Response> =>
    api().post('/sessions/refresh').send({ delivery: 'body', refreshToken });
  /** The grace for a token shown twice runs on the wall clock: the test lets it pass by moving the use back. */
  const later = (seconds: number): Promise<unknown> =>
    shop.sql(`update refresh_tokens set used_at = used_at - make_interval(secs => $1)`, [seconds]);
  const current = (accessToken: string) => personWith(shop.url, '', accessToken).get('/sessions/current');

  it('each refresh token is good once and gives the next', async () => {
    let token = (await signIn()).body.refreshToken as string;
    const seen = new Set([token]);
    for (let i = 0; i < 3; i += 1) {
      const next = await refresh(token);
      expect(next.status).toBe(201);
      token = next.body.refreshToken;
      seen.add(token);
      await current(next.body.accessToken).expect(200);
    }
    expect(seen.size).toBe(4);
  });

  it('a token that was used and comes back ends the session, for the thief and for the owner', async () => {
    const stolen = (await signIn()).body.refreshToken;
    const mine = (await refresh(stolen)).body;
    await later(60);
    expect((await refresh(stolen)).body).toMatchObject({ status: 401, code: 'session-ended' });
    expect((await refresh(mine.refreshToken)).body.code).toBe('session-ended');
    expect((await current(mine.accessToken)).body.code).toBe('session-ended');
    const [row] = await shop.sql('select end_reason from sessions order by id desc limit 1');
    expect(row).toEqual({ end_reason: 'token-reused' });
  });

  it('two tabs that refresh at once both stay signed in, and get one and the same next token', async () => {
    const token = (await signIn()).body.refreshToken;
    const tabs = await Promise.all(Array.from({ length: 8 }, () => refresh(token)));
    expect(tabs.map((t) => t.status)).toEqual(Array.from({ length: 8 }, () => 201));
    const next = new Set(tabs.map((t) => t.body.refreshToken as string));
    expect(next.size).toBe(1);
    const [again] = [...next];
    expect((await refresh(again)).status).toBe(201);
  });

  it('an answer that got lost can be asked for again, but not once its token was used', async () => {
    const first = (await signIn()).body.refreshToken;
    const lost = (await refresh(first)).body.refreshToken;
    expect((await refresh(first)).body.refreshToken).toBe(lost);
    expect((await refresh(lost)).status).toBe(201);
    expect((await refresh(first)).body.code).toBe('session-ended');
  });

  it('ends after twelve hours, however often it was refreshed', async () => {
    const token = (await signIn()).body.refreshToken;
    const next = (await refresh(token)).body;
    await shop.sql(`update sessions set expires_at = now() - interval '1 second' where ended_at is null`);
    expect((await refresh(next.refreshToken)).body.code).toBe('session-ended');
    expect((await current(next.accessToken)).status).toBe(401);
  });

  it('a change of roles arrives with the next refresh', async () => {
    const token = (await signIn()).body.refreshToken;
    const path = `/staff/${shop.technician.staffId}`;
    const { version } = (await shop.manager.get(path)).body;
    await shop.manager.patch(path, { roles: ['technician', 'front-desk'] }, version).expect(200);
    const next = (await refresh(token)).body;
    expect(next.staff.roles).toEqual(['technician', 'front-desk']);
    await personWith(shop.url, '', next.accessToken)
      .post('/customers', { displayName: 'Allowed Now' })
      .expect(201);
  });

  it('whatever is no token of ours is refused alike', async () => {
    const other = await shop.addShop('refresh-yard');
    const real = (await signIn()).body.refreshToken as string;
    const bytes = Buffer.from(real, 'base64url');
    const forOtherShop = Buffer.concat([
      Buffer.from(other.shopId.replaceAll('-', ''), 'hex'),
      bytes.subarray(16),
    ]);
    const wrong = [undefined, 'x', 'x'.repeat(64), `${real.slice(0, -1)}${real.endsWith('A') ? 'B' : 'A'}`];
    for (const token of [...wrong, forOtherShop.toString('base64url')])
      expect((await refresh(token)).body).toMatchObject({ status: 401, code: 'session-ended' });
    expect((await refresh(real)).status).toBe(201);
    await api().post('/sessions/refresh').send({ delivery: 'smoke' }).expect(422);
  });

  it('in a browser the token is a cookie that scripts cannot read and that goes nowhere else', async () => {
    const signedIn = await signIn('cookie');
    expect(signedIn.body).not.toHaveProperty('refreshToken');
    const [cookie = ''] = signedIn.headers['set-cookie'] as unknown as string[];
    expect(cookie).toMatch(/^bayledger_refresh=[A-Za-z0-9_-]{64};/);
    for (const part of ['HttpOnly', 'SameSite=Strict', 'Path=/api/v1/sessions', 'Max-Age=43'])
      expect(cookie).toContain(part);
    expect(cookie).not.toContain('Secure'); // in production only: the shop's own network may have no certificate

    const value = cookie.split(';')[0] ?? '';
    const renewed = await api().post('/sessions/refresh').set('cookie', value).send({ delivery: 'cookie' });
    expect(renewed.status).toBe(201);
    const [next = ''] = renewed.headers['set-cookie'] as unknown as string[];
    expect(next.split(';')[0]).not.toBe(value);
    // A cookie never turns into a text that a script could carry away.
    const asText = await api().post('/sessions/refresh').set('cookie', next).send({ delivery: 'body' });
    expect(asText.status).toBe(401);

    await api()
      .delete('/sessions/current')
      .set('cookie', next.split(';')[0] ?? '')
      .expect(204);
    const after = await api()
      .post('/sessions/refresh')
      .set('cookie', next.split(';')[0] ?? '')
      .send({ delivery: 'cookie' });
    expect(after.body.code).toBe('session-ended');
    expect(String(after.headers['set-cookie'])).toContain('bayledger_refresh=;');
  });

  it('signing out ends this session and no other, and twice is harmless', async () => {
    const [desk, phone] = [(await signIn()).body, (await signIn()).body];
    const out = () =>
      api()
        .delete('/sessions/current')
        .set('authorization', `Bearer ${desk.accessToken as string}`);
    await out().expect(204);
    await out().expect(204);
    expect((await refresh(desk.refreshToken)).status).toBe(401);
    expect((await refresh(phone.refreshToken)).status).toBe(201);
    await api().delete('/sessions/current').expect(401);
  });
});
