import { randomUUID } from 'node:crypto';
import request, { type Response } from 'supertest';
import { personWith, shopUnderTest, type Person, type ShopUnderTest } from '../support/shop-under-test.js';

const PASSWORD = 'four plain words here';

describe('staff sign in', () => {
  let shop: ShopUnderTest;
  let people = 0;
  beforeAll(async () => {
    shop = await shopUnderTest();
  });
  afterAll(async () => {
    await shop.stop();
  });

  /** Somebody new with an address and a password, so that one story's wrong attempts do not lock another's person. */
  async function somebody(
    role: 'technician' | 'manager' = 'technician',
  ): Promise<Person & { email: string }> {
    people += 1;
    const person = await shop.addPerson(role, `Person ${people}`);
    await shop.manager.put(`/staff/${person.staffId}/password`, { password: PASSWORD }, 1).expect(204);
    return { ...person, email: `${person.staffId}@example.test` };
  }
  const signIn = (body: object): Promise<Response> =>
    request(`${shop.url}/api/v1`)
      .post('/sessions')
      .send({ delivery: 'body', ...body });

  it('with the right password, in any spelling of the address, and is who the answer says', async () => {
    const { email, staffId } = await somebody();
    const answer = await signIn({ email: ` ${email.toUpperCase()}`, password: PASSWORD });
    expect(answer.status).toBe(201);
    expect(answer.headers['cache-control']).toBe('no-store');
    expect(answer.body).toEqual({
      accessToken: expect.any(String),
      expiresInSeconds: 600,
      refreshToken: expect.stringMatching(/^[A-Za-z0-9_-]{64}$/),
      staff: { id: staffId, displayName: `Person ${people}`, roles: ['technician'] },
      shop: { id: shop.shopId, name: 'Kestrel Yard', timeZone: 'America/New_York', currency: 'USD' },
    });
    const me = personWith(shop.url, staffId, answer.body.accessToken);
    const current = await me.get('/sessions/current').expect(200);
    expect(current.body).toMatchObject({ how: 'password', staff: { id: staffId } });
    expect(current.body.may).toContain('clock.own');
    expect(current.body.may).not.toContain('shop.configure');
    const hours = (Date.parse(current.body.expiresAt) - Date.parse(current.body.startedAt)) / 3_600_000;
    expect(hours).toBe(12);
  });

  it('keeps neither password nor token, only argon2id and SHA-256 of them', async () => {
    const { email, staffId } = await somebody();
    const { body } = await signIn({ email, password: PASSWORD });
    const [kept] = await shop.sql<{ password_hash: string }>(
      'select password_hash from staff where id = $1',
      [staffId],
    );
    expect(kept?.password_hash).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$/);
    for (const table of ['refresh_tokens', 'sessions', 'audit_entries', 'idempotency_keys', 'staff']) {
      const [found] = await shop.sql<{ n: number }>(
        `select count(*)::int as n from ${table} t where t::text like '%' || $1 || '%' or t::text like '%' || $2 || '%'`,
        [body.refreshToken, PASSWORD],
      );
      expect(found?.n).toBe(0);
    }
  });

  it('a wrong password, an unknown address and a person without a password get the same answer', async () => {
    const { email } = await somebody();
    const noPassword = await shop.addPerson('technician', 'No Password');
    const answers = [
      await signIn({ email, password: 'not this one at all' }),
      await signIn({ email: 'nobody@example.test', password: 'not this one at all' }),
      await signIn({ email: `${noPassword.staffId}@example.test`, password: 'not this one at all' }),
      await signIn({ email, password: PASSWORD, shop: 'no-such-yard' }),
    ];
    expect(new Set(answers.map((a) => JSON.stringify([a.status, a.body]))).size).toBe(1);
    expect(answers[0]?.body).toMatchObject({ status: 401, code: 'sign-in-failed' });
  });

  it('and the same time: nobody can tell by the clock which addresses exist', async () => {
    const { email } = await somebody();
    const timed = async (address: string): Promise<number> => {
      const began = performance.now();
      await signIn({ email: address, password: 'not this one at all' });
      return performance.now() - began;
    };
    const known: number[] = [];
    const unknown: number[] = [];
    for (let i = 0; i < 4; i += 1) {
      known.push(await timed(email));
      unknown.push(await timed('nobody-timed@example.test'));
    }
    const median = (list: number[]): number => [...list].sort((a, b) => a - b)[2] ?? 0;
    console.log(`refusals: known ${median(known).toFixed(0)} ms, unknown ${median(unknown).toFixed(0)} ms`);
    expect(Math.min(...known, ...unknown)).toBeGreaterThan(195);
    expect(Math.abs(median(known) - median(unknown))).toBeLessThan(60);
  });

  it('after five wrong attempts the right password does not help either, for a quarter of an hour', async () => {
    const { email, staffId } = await somebody();
    for (let i = 0; i < 5; i += 1) await signIn({ email, password: `wrong guess number ${i}` });
    const locked = await signIn({ email, password: PASSWORD });
    expect(locked.body).toMatchObject({ status: 429, code: 'sign-in-locked' });
    expect(locked.body.retryAfterSeconds).toBeGreaterThan(14 * 60);
    expect(locked.headers['retry-after']).toBe(String(locked.body.retryAfterSeconds));
    const seen = await shop.manager.get(`/staff/${staffId}`).expect(200);
    expect(Date.parse(seen.body.lockedUntil)).toBeGreaterThan(Date.now());
    // The lock runs on the wall clock, so the test moves the lock and not the clock.
    await shop.sql(`update staff set locked_until = now() - interval '1 second' where id = $1`, [staffId]);
    expect((await signIn({ email, password: 'wrong once more' })).status).toBe(401);
    expect((await signIn({ email, password: PASSWORD })).status).toBe(201);
  });

  it('guesses sent all at once count like guesses sent one after the other', async () => {
    const { email } = await somebody();
    const guesses = Array.from({ length: 12 }, (_, i) => signIn({ email, password: `parallel guess ${i}` }));
    const statuses = (await Promise.all(guesses)).map((r) => r.status);
    expect(statuses.filter((s) => s === 401)).toHaveLength(5);
    expect(statuses.filter((s) => s === 429)).toHaveLength(7);
  });

  it('an address that nobody has locks in the same way', async () => {
    const email = 'still-nobody@example.test';
    for (let i = 0; i < 5; i += 1) expect((await signIn({ email, password: 'x' })).status).toBe(401);
    const locked = await signIn({ email, password: 'x' });
    expect(locked.body).toMatchObject({ status: 429, code: 'sign-in-locked' });
  });

  it('somebody known in two shops lands where the password fits, and is asked when it fits in both', async () => {
    const { email, staffId } = await somebody('manager');
    const other = await shop.addShop('two-shop-yard');
    const there = await other.person('manager', 'Same Person');
    const otherAdmin = await other.person('administrator');
    await shop.sql('update staff set email = $1 where id = $2', [email, there.staffId]);
    await otherAdmin
      .put(`/staff/${there.staffId}/password`, { password: 'another set of words' }, 1)
      .expect(204);
    const here = await signIn({ email, password: PASSWORD });
    expect(here.body.staff.id).toBe(staffId);
    const elsewhere = await signIn({ email, password: 'another set of words' });
    expect(elsewhere.body).toMatchObject({ staff: { id: there.staffId }, shop: { id: other.shopId } });
    const [counted] = await shop.sql<{ n: number }>(
      'select sum(failed_sign_ins)::int as n from staff where email = $1',
      [email],
    );
    expect(counted?.n).toBe(0);

    await otherAdmin.put(`/staff/${there.staffId}/password`, { password: PASSWORD }, 1).expect(204);
    const which = await signIn({ email, password: PASSWORD });
    expect(which.body).toMatchObject({
      status: 409,
      code: 'shop-needed',
      shops: ['test-yard', 'two-shop-yard'],
    });
    expect(which.body.fields[0].pointer).toBe('/shop');
    const said = await signIn({ email, password: PASSWORD, shop: 'two-shop-yard' });
    expect(said.body.shop.id).toBe(other.shopId);
  });

  it('somebody deactivated is unknown, and every session of theirs is over', async () => {
    const { email, staffId } = await somebody();
    const { body } = await signIn({ email, password: PASSWORD });
    const me = personWith(shop.url, staffId, body.accessToken);
    const { version } = (await shop.manager.get(`/staff/${staffId}`)).body;
    await shop.manager.patch(`/staff/${staffId}`, { isActive: false }, version).expect(200);
    expect((await me.get('/sessions/current')).body.code).toBe('session-ended');
    const refreshed = await request(`${shop.url}/api/v1`)
      .post('/sessions/refresh')
      .send({ delivery: 'body', refreshToken: body.refreshToken });
    expect(refreshed.body).toMatchObject({ status: 401, code: 'session-ended' });
    expect((await signIn({ email, password: PASSWORD })).body.code).toBe('sign-in-failed');
  });

  it('their own password is changed with the present one; the other devices are signed out', async () => {
    const { email, staffId } = await somebody();
    const desk = (await signIn({ email, password: PASSWORD })).body;
    const phone = (await signIn({ email, password: PASSWORD })).body;
    const me = personWith(shop.url, staffId, desk.accessToken);
    const path = `/staff/${staffId}/password`;
    const password = 'a new set of words';
    const wrong = await me.put(path, { password, currentPassword: 'not the present one' }, 1).expect(422);
    expect(wrong.body.fields[0].pointer).toBe('/currentPassword');
    const [row] = await shop.sql('select failed_sign_ins from staff where id = $1', [staffId]);
    expect(row).toEqual({ failed_sign_ins: 1 });
    await me.put(path, { password }, 1).expect(422);
    await me.put(path, { password, currentPassword: PASSWORD }, 1).expect(204);
    await me.get('/sessions/current').expect(200);
    expect((await personWith(shop.url, staffId, phone.accessToken).get('/sessions/current')).status).toBe(
      401,
    );
    expect((await signIn({ email, password: PASSWORD })).status).toBe(401);
    expect((await signIn({ email, password })).status).toBe(201);
  });

  it('wrong shapes are named field by field, and a password is not trimmed', async () => {
    const bad = await signIn({ email: 'no address', password: '', delivery: 'pigeon', extra: 1 });
    expect(bad.status).toBe(422);
    expect(bad.body.fields.map((f: { pointer: string }) => f.pointer).sort()).toEqual([
      '/delivery',
      '/email',
      '/extra',
      '/password',
    ]);
    const { email } = await somebody();
    expect((await signIn({ email, password: `${PASSWORD} ` })).status).toBe(401);
    const broken = await request(`${shop.url}/api/v1`)
      .post('/sessions')
      .set('content-type', 'application/json')
      .send('{"email":');
    expect(broken.body).toMatchObject({ status: 400, code: 'malformed-request' });
  });

  it('a machine that keeps asking from one address is told to wait', async () => {
    const answers: number[] = [];
    for (let i = 0; i < 75; i += 1) answers.push((await signIn({ email: randomUUID() })).status);
    expect(answers).toContain(429);
    const last = await signIn({});
    expect(last.body).toMatchObject({ status: 429, code: 'too-many-requests' });
    expect(Number(last.headers['retry-after'])).toBeGreaterThan(0);
  });
});
