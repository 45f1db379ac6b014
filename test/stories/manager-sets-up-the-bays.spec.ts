import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

describe('the manager sets up the bays', () => {
  let shop: ShopUnderTest;
  beforeAll(async () => {
    shop = await shopUnderTest();
  });
  afterAll(async () => {
    await shop.stop();
  });

  const lift = { number: 1, name: 'By the door', kind: 'lift', liftKind: 'two-post', capacityKg: 3500 };

  it('adds a lift and reads it back with its ETag', async () => {
    const made = await shop.manager.post('/bays', lift).expect(201);
    expect(made.body).toMatchObject({ ...lift, outOfServiceReason: null, version: 1 });
    expect(made.headers['etag']).toBe('"1"');
    const list = await shop.technician.get('/bays').expect(200);
    expect(list.body.items).toEqual([made.body]);
  });

  it('takes a bay out of service, and refuses a change based on an old version', async () => {
    const { body } = await shop.manager.get('/bays');
    const { id, version } = body.items[0];
    const changed = await shop.manager
      .patch(`/bays/${id}`, { outOfServiceReason: 'cable worn' }, version)
      .expect(200);
    expect(changed.body).toMatchObject({ outOfServiceReason: 'cable worn', version: version + 1 });
    const stale = await shop.manager.patch(`/bays/${id}`, { name: 'x' }, version).expect(412);
    expect(stale.body).toMatchObject({ code: 'stale-version', currentVersion: version + 1 });
  });

  it('gets every bad field named, and saves nothing', async () => {
    const bad = await shop.manager
      .post('/bays', { number: 0, name: '', kind: 'hoist', colour: 'blue' })
      .expect(422);
    expect(bad.headers['content-type']).toContain('application/problem+json');
    expect(bad.body.fields.map((f: { pointer: string }) => f.pointer).sort()).toEqual([
      '/colour',
      '/kind',
      '/name',
      '/number',
    ]);
    await shop.manager.post('/bays', { number: 2, name: 'No plate', kind: 'lift' }).expect(422);
    await shop.manager
      .post('/bays', { ...lift, name: 'Again' })
      .expect(409)
      .expect((r) => expect(r.body.code).toBe('code-taken'));
    expect((await shop.manager.get('/bays')).body.items).toHaveLength(1);
  });

  it('a technician may look, not change; a repeat with the same key adds one bay', async () => {
    await shop.technician.post('/bays', { ...lift, number: 3 }).expect(403);
    const key = { 'idempotency-key': '"bay-4"' };
    const first = await shop.manager.post('/bays', { ...lift, number: 4 }, key).expect(201);
    const again = await shop.manager.post('/bays', { ...lift, number: 4 }, key).expect(201);
    expect(again.body).toEqual(first.body);
    expect(again.headers['idempotent-replayed']).toBe('true');
    await shop.manager.post('/bays', { ...lift, number: 5 }, key).expect(422);
  });

  it('another shop sees none of it', async () => {
    const other = await shop.addShop('other-yard');
    const stranger = await other.person('manager');
    expect((await stranger.get('/bays')).body.items).toEqual([]);
    const { body } = await shop.manager.get('/bays');
    await stranger.patch(`/bays/${body.items[0].id}`, { name: 'mine now' }, 1).expect(404);
  });
});
