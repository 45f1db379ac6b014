import { aTemplate } from '../support/cars.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

const pointers = (body: unknown): string[] =>
  (body as { fields: { pointer: string }[] }).fields.map((f) => f.pointer);
const NOBODY = '0198a000-0000-7000-8000-000000000000';

describe('the manager lays out the walk over a car', () => {
  let shop: ShopUnderTest;
  beforeAll(async () => {
    shop = await shopUnderTest();
  });
  afterAll(async () => {
    await shop.stop();
  });

  const save = (stations: unknown) =>
    shop.manager.post('/inspection-templates', { name: 'Bad one', stations });
  const look = { component: 'Lamps', position: 'vehicle' };

  it('keeps stations and checkpoints in walking order, with the limit in words and its source', async () => {
    const saved = await aTemplate(shop);
    const read = await shop.technician.get(`/inspection-templates/${saved.id}`).expect(200);
    expect(read.body).toEqual(saved);
    expect(read.body).toMatchObject({ name: 'Short walk', edition: 1, isCurrent: true, checkpointCount: 4 });
    expect(read.body.stations.map((s: { name: string }) => s.name)).toEqual([
      'Around the car',
      'Lift at knee height',
    ]);
    expect(read.body.stations[0].checkpoints).toMatchObject([
      {
        component: 'Tyre tread',
        position: 'front-left',
        readingName: 'tread',
        readingUnit: 'mm',
        limit: {
          comparator: 'min',
          value: '1.6',
          text: 'not less than 1.6 mm',
          source: 'UK and EU rule, central three quarters',
        },
      },
      { component: 'Lamps', position: 'vehicle', readingName: null, readingUnit: null, limit: null },
    ]);
  });

  it('makes a new edition when saved again, and the old one stays as it was', async () => {
    const first = (await shop.manager.get('/inspection-templates')).body.items[0];
    const before = await shop.manager.get(`/inspection-templates/${first.id}`);
    const second = await aTemplate(shop);
    expect(second.edition).toBe(2);
    const current = await shop.technician.get('/inspection-templates').expect(200);
    expect(current.body.items).toMatchObject([{ id: second.id, edition: 2, isCurrent: true }]);
    const all = await shop.technician.get('/inspection-templates?all=yes').expect(200);
    expect(all.body.items.map((t: { edition: number }) => t.edition)).toEqual([2, 1]);
    const after = await shop.manager.get(`/inspection-templates/${first.id}`).expect(200);
    expect(after.body).toEqual({ ...before.body, isCurrent: false });
  });

  it('cannot be changed behind its back, not even by the owner of the database', async () => {
    await expect(shop.sql(`update checkpoints set component = 'Other'`)).rejects.toMatchObject({
      constraint: 'checkpoints_append_only',
    });
    await expect(shop.sql('delete from stations')).rejects.toMatchObject({
      constraint: 'stations_append_only',
    });
  });

  it('gives two managers who save at once two editions, or tells the slower one', async () => {
    const body = { name: 'At once', stations: [{ name: 'A', checkpoints: [look] }] };
    const both = await Promise.all([
      shop.manager.post('/inspection-templates', body),
      shop.administrator.post('/inspection-templates', body),
    ]);
    const kept = await shop.sql<{ edition: number; is_current: boolean }>(
      `select edition, is_current from inspection_templates where name = 'At once' order by edition`,
    );
    expect(kept).toHaveLength(both.filter((r) => r.status === 201).length);
    expect(kept.filter((t) => t.is_current)).toHaveLength(1);
    for (const r of both.filter((answer) => answer.status !== 201)) expect(r.body.code).toBe('name-taken');
  });

  it.each<[string, unknown, string[]]>([
    ['no station', [], ['/stations']],
    [
      'a station without a checkpoint',
      [
        { name: 'A', checkpoints: [look] },
        { name: 'B', checkpoints: [] },
      ],
      ['/stations/1/checkpoints'],
    ],
    ['a list as a station', [[]], ['/stations']],
    [
      'a place that a car does not have',
      [{ name: 'A', checkpoints: [{ ...look, position: 'roof' }] }],
      ['/stations/0/checkpoints/0/position'],
    ],
    [
      'a unit that is none',
      [{ name: 'A', checkpoints: [{ ...look, readingName: 'x', readingUnit: 'thumb' }] }],
      ['/stations/0/checkpoints/0/readingUnit'],
    ],
    [
      'a reading without its unit',
      [{ name: 'A', checkpoints: [{ ...look, readingName: 'tread' }] }],
      ['/stations/0/checkpoints/0/readingUnit'],
    ],
    [
      'a limit without a reading',
      [{ name: 'A', checkpoints: [{ ...look, limit: { comparator: 'min', value: '2', source: 's' } }] }],
      ['/stations/0/checkpoints/0/limit'],
    ],
    [
      'a limit without its source',
      [
        {
          name: 'A',
          checkpoints: [
            { ...look, readingName: 'x', readingUnit: 'mm', limit: { comparator: 'under', value: '2,0' } },
          ],
        },
      ],
      [
        '/stations/0/checkpoints/0/limit/comparator',
        '/stations/0/checkpoints/0/limit/source',
        '/stations/0/checkpoints/0/limit/value',
      ],
    ],
  ])('refuses a walk with %s, and saves nothing', async (_name, stations, expected) => {
    const bad = await save(stations).expect(422);
    expect(pointers(bad.body).sort()).toEqual(expected);
    expect(await shop.sql(`select 1 from inspection_templates where name = 'Bad one'`)).toEqual([]);
  });

  it('is read by all, written by the manager, and not seen by another shop', async () => {
    const { id } = (await shop.manager.get('/inspection-templates')).body.items[0];
    await shop.frontDesk.get('/inspection-templates').expect(200);
    await shop.technician.post('/inspection-templates', { name: 'x', stations: [] }).expect(403);
    const stranger = await (await shop.addShop('fourth-yard')).person('manager');
    await stranger.get(`/inspection-templates/${id}`).expect(404);
    await shop.manager.get(`/inspection-templates/${NOBODY}`).expect(404);
  });
});
