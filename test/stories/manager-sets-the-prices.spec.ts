import { newId } from '#server/platform/ids';
import request from 'supertest';
import { EstimateBuilder } from '../builders/estimate.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

const RULES = {
  matrix: {
    method: 'marginal',
    bands: [
      { fromCents: 0, multiplierPpm: 3_000_000 },
      { fromCents: 1000, multiplierPpm: 2_200_000 },
    ],
  },
  defaultMarginPpm: 400_000,
  subletMarkupPpm: 150_000,
  suppliesBase: 'labour',
  taxesCombined: false,
} as const;

const pointers = (body: { fields?: { pointer: string }[] }): string[] =>
  (body.fields ?? []).map(({ pointer }) => pointer).sort();

describe('the manager sets the prices', () => {
  let shop: ShopUnderTest;
  let estimate: EstimateBuilder;
  beforeAll(async () => {
    shop = await shopUnderTest();
    estimate = await EstimateBuilder.withCatalogue(shop);
  });
  afterAll(async () => {
    await shop.stop();
  });

  it('says how prices follow from costs, as one more setting of the shop', async () => {
    const first = await shop.frontDesk.get('/shop/price-rules').expect(200);
    expect(first.body).toEqual({
      matrix: null,
      defaultMarginPpm: null,
      subletMarkupPpm: 0,
      suppliesBase: 'labour',
      taxesCombined: false,
      warnings: [],
      version: 1,
    });
    expect(first.headers['etag']).toBe('"1"');
    const saved = await shop.administrator.put('/shop/price-rules', RULES, 1).expect(200);
    expect(saved.body).toEqual({ ...RULES, warnings: [], version: 2 });
    expect((await shop.frontDesk.get('/shop/price-rules').expect(200)).body).toEqual(saved.body);
    expect((await shop.administrator.get('/shop').expect(200)).body.version).toBe(2);
  });

  it('is warned where a whole band sells a dearer part for less, and below cost, but not refused', async () => {
    const bands = [...RULES.matrix.bands, { fromCents: 500_000, multiplierPpm: 990_000 }];
    const saved = await shop.administrator
      .put('/shop/price-rules', { ...RULES, matrix: { method: 'whole-band', bands } }, '*')
      .expect(200);
    // A part at 9.99 sells for 29.97; 29.97 / 2.2 = 13.62, so dearer parts up to 13.62 sell for less, by 7.97 at most.
    expect(saved.body.warnings).toEqual([
      {
        code: 'matrix-inverts',
        detail: expect.stringContaining('A part that costs 10.00 sells for 22.00, 7.97 less') as string,
        fromCents: 1000,
        toCents: 1362,
        dropCents: 797,
      },
      expect.objectContaining({ code: 'matrix-inverts', fromCents: 500_000 }),
      expect.objectContaining({ code: 'sells-below-cost', fromCents: 500_000, toCents: null }),
    ]);
    const marginal = { ...RULES, matrix: { method: 'marginal', bands: bands.slice(0, 2) } };
    expect(
      (await shop.administrator.put('/shop/price-rules', marginal, '*').expect(200)).body.warnings,
    ).toEqual([]);
  });

  it('refuses what cannot be meant, by field, and a change that is not based on what is there', async () => {
    const put = (rules: object, version: number | string = '*') =>
      shop.administrator.put('/shop/price-rules', rules, version);
    const bands = [
      { fromCents: 100, multiplierPpm: 3_000_000 },
      { fromCents: 100, multiplierPpm: 2_000_000 },
    ];
    const wrong = await put({ ...RULES, matrix: { method: 'marginal', bands } }).expect(422);
    expect(pointers(wrong.body)).toEqual(['/matrix/bands/0/fromCents', '/matrix/bands/1/fromCents']);
    const empty = await put({ ...RULES, matrix: { method: 'marginal', bands: [] } }).expect(422);
    expect(pointers(empty.body)).toEqual(['/matrix/bands']);
    const shape = await put({
      ...RULES,
      matrix: { method: 'slabs', bands: [{ fromCents: -1, multiplierPpm: 0 }] },
      defaultMarginPpm: 1_000_000,
      suppliesBase: 'everything',
    }).expect(422);
    expect(pointers(shape.body)).toEqual([
      '/defaultMarginPpm',
      '/matrix/bands/0/fromCents',
      '/matrix/bands/0/multiplierPpm',
      '/matrix/method',
      '/suppliesBase',
    ]);
    expect((await put(RULES, 1).expect(412)).body.code).toBe('stale-version');
    await request(shop.url)
      .put('/api/v1/shop/price-rules')
      .set('authorization', `Bearer ${shop.administrator.token}`)
      .send(RULES)
      .expect(428);
    await request(shop.url).get('/api/v1/shop/price-rules').expect(401);
    await shop.technician.get('/shop/price-rules').expect(403);
    await shop.frontDesk.put('/shop/price-rules', RULES, '*').expect(403);
  });

  it('gives a step a rate of its own, for lines written from now on', async () => {
    const [diagnosis] = await shop.sql<{ id: string }>(
      `insert into labour_rates (shop_id, id, name, cents_per_hour, is_default) values ($1, $2, 'Alignment', 15950, false) returning id`,
      [shop.shopId, newId()],
    );
    const repairOrderId = await estimate.stay();
    const before = await estimate.line(repairOrderId, 'struts');
    const steps = (await shop.manager.get('/steps?q=ALIGN').expect(200)).body.items;
    const align = steps[0] as { id: string; version: number; rateId: string | null };
    expect(align.rateId).toBeNull();
    const stray = await shop.manager
      .patch(`/steps/${align.id}`, { rateId: newId() }, align.version)
      .expect(422);
    expect(pointers(stray.body)).toEqual(['/rateId']);
    const changed = await shop.manager
      .patch(`/steps/${align.id}`, { rateId: diagnosis?.id }, align.version)
      .expect(200);
    expect(changed.body).toMatchObject({ rateId: diagnosis?.id, version: align.version + 1 });

    const after = await shop.frontDesk
      .post(`/repair-orders/${await estimate.stay()}/lines`, {
        title: 'Struts',
        ...estimate.request('struts'),
      })
      .expect(201);
    // 3.80 h at 129.50 = 492.10 and the alignment, 1.00 h at 159.50: 651.60. The line from before keeps 4.80 h at 129.50.
    expect(after.body.alone).toMatchObject({ hundredths: 480, labourCents: 65_160 });
    expect(after.body.steps).toContainEqual(
      expect.objectContaining({ name: 'align', rateCentsPerHour: 15_950 }),
    );
    const kept = await shop.frontDesk.get(`/repair-orders/${repairOrderId}/estimate`).expect(200);
    expect(kept.body.revisions[0].lines[0]).toMatchObject({ id: before.id, alone: { labourCents: 62_160 } });

    const cleared = await shop.manager
      .patch(`/steps/${align.id}`, { rateId: null }, align.version + 1)
      .expect(200);
    expect(cleared.body.rateId).toBeNull();
  });

  it('enters a book time for operations that are done together, within what their steps allow', async () => {
    const brakes = { operationId: estimate.operationId('BRAKES'), positions: ['front'] };
    const struts = { operationId: estimate.operationId('STRUTS'), positions: ['front'] };
    const both = { name: 'Front end', hundredths: 550, operations: [brakes, struts] };
    const made = await shop.manager.post('/packages', both).expect(201);
    expect(made.body).toMatchObject({
      name: 'Front end',
      hundredths: 550,
      operations: [{ name: 'brakes', positions: ['front'] }, { name: 'struts' }],
      isActive: true,
      version: 1,
    });
    expect((await shop.frontDesk.get('/packages').expect(200)).body.items).toEqual([made.body]);

    // Struts alone take 4.80 h, both one by one 6.20 h: a package cannot take less than a part of it, nor more than all.
    for (const hundredths of [479, 621]) {
      const wrong = await shop.manager.post('/packages', { ...both, name: 'Other', hundredths }).expect(422);
      expect(wrong.body.fields).toEqual([
        { pointer: '/hundredths', detail: expect.stringContaining('from 480 to 620') as string },
      ]);
    }
    const refused = async (operations: object[]): Promise<string[]> =>
      pointers(
        (await shop.manager.post('/packages', { ...both, name: 'Other', operations }).expect(422)).body,
      );
    expect(await refused([brakes])).toEqual(['/operations']);
    expect(await refused([brakes, { operationId: newId(), positions: [] }])).toEqual([
      '/operations/1/operationId',
    ]);
    expect(await refused([brakes, brakes])).toEqual(['/operations/1/operationId']);
    expect(await refused([brakes, { ...struts, positions: [] }])).toEqual(['/operations/1/positions']);
    expect((await shop.manager.post('/packages', both).expect(409)).body.code).toBe('name-taken');
    await shop.frontDesk.post('/packages', both).expect(403);

    const path = `/packages/${made.body.id as string}`;
    expect((await shop.manager.patch(path, { hundredths: 700 }, 1).expect(422)).body.fields).toHaveLength(1);
    const changed = await shop.manager.patch(path, { hundredths: 600, isActive: false }, 1).expect(200);
    expect(changed.body).toMatchObject({ hundredths: 600, isActive: false, version: 2 });
    await shop.manager.patch(path, { hundredths: 590 }, 1).expect(412);
    expect((await shop.manager.get('/packages').expect(200)).body.items).toEqual([]);
    expect((await shop.manager.get('/packages?all=yes').expect(200)).body.items).toHaveLength(1);
    await shop.manager.patch(`/packages/${newId()}`, { hundredths: 590 }, 1).expect(404);
  });
});
