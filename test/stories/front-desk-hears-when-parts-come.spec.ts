import { newId } from '#server/platform/ids';
import { FloorBuilder, type MadeWork } from '../builders/floor.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

// Wednesday 11 March 2026, New York, four hours behind UTC.
const at = (time: string, day = '2026-03-11'): string => new Date(`${day}T${time}:00-04:00`).toISOString();

describe('the front desk hears when parts come', () => {
  let shop: ShopUnderTest;
  let floor: FloorBuilder;
  beforeAll(async () => {
    shop = await shopUnderTest({ now: at('08:00') });
    floor = new FloorBuilder(shop);
    await floor.bay();
  });
  afterAll(async () => {
    await shop.stop();
  });
  beforeEach(() => {
    shop.clock.set(new Date(at('08:00')));
  });

  const tell = (work: MadeWork, body: object, which = 0) =>
    shop.frontDesk.post(`/line-items/${work.itemIds[which]}/expectations`, body);
  const need = async (work: MadeWork) =>
    (await shop.frontDesk.get(`/repair-orders/${work.repairOrderId}/part-needs`).expect(200)).body.items[0];
  const hold = async (work: MadeWork) =>
    (await shop.technician.get(`/work-orders/${work.workOrderId}`).expect(200)).body.holds[0];

  it('later, then not known, then sooner: what was told last counts, and who told it is known', async () => {
    const work = await floor.work({ items: [{ name: 'pad set', expectedAt: at('10:00') }] });
    expect(await need(work)).toMatchObject({ expectedAt: at('10:00'), told: null });
    const told = await tell(work, { expectedAt: '2026-03-12T15:00:00-04:00', note: ' by phone ' }).expect(
      201,
    );
    expect(told.body).toEqual({
      ...{ id: told.body.id, lineItemId: work.itemIds[0], expectedAt: at('15:00', '2026-03-12') },
      ...{ toldAt: at('08:00'), toldBy: shop.frontDesk.staffId, note: 'by phone' },
    });
    const by = { id: shop.frontDesk.staffId, displayName: 'Wenna' };
    expect(await need(work)).toMatchObject({
      expectedAt: at('15:00', '2026-03-12'),
      told: { at: at('08:00'), by, note: 'by phone' },
    });
    expect(await hold(work)).toMatchObject({
      detail: 'Waiting for 1 of 1 × pad set, expected 2026-03-12 15:00.',
      until: at('15:00', '2026-03-12'),
    });
    await tell(work, { expectedAt: null }).expect(201);
    expect(await need(work)).toMatchObject({ expectedAt: null, told: { by, note: null } });
    expect((await hold(work)).detail).toBe('Waiting for 1 of 1 × pad set, no date known.');
    await shop.manager
      .post(`/line-items/${work.itemIds[0]}/expectations`, { expectedAt: at('09:00') })
      .expect(201);
    expect(await need(work)).toMatchObject({
      expectedAt: at('09:00'),
      told: { by: { id: shop.manager.staffId } },
    });
    const [line] = await shop.sql<{ at: Date }>('select expected_at as at from line_items where id = $1', [
      work.itemIds[0],
    ]);
    expect(line?.at.toISOString()).toBe(at('10:00'));
    const audited = await shop.sql(
      `select id from audit_entries where action = 'part.expect' and subject_id = $1`,
      [work.itemIds[0]],
    );
    expect(audited).toHaveLength(3);
  });

  it('of sublet work too', async () => {
    const work = await floor.work({ items: [{ kind: 'sublet', name: 'machining' }] });
    await tell(work, { expectedAt: at('12:00') }).expect(201);
    expect(await hold(work)).toMatchObject({ kind: 'sublet', until: at('12:00') });
  });

  it('twice at once, and both are kept, one after the other', async () => {
    const work = await floor.work({ items: [{}] });
    const hours = ['09', '10', '11', '12', '13', '14'];
    await Promise.all(hours.map((hour) => tell(work, { expectedAt: at(`${hour}:00`) }).expect(201)));
    const rows = await shop.sql<{ sequence: number; at: Date }>(
      'select sequence, expected_at as at from part_expectations where line_item_id = $1 order by sequence',
      [work.itemIds[0]],
    );
    expect(rows.map(({ sequence }) => sequence)).toEqual([1, 2, 3, 4, 5, 6]);
    expect((await need(work)).expectedAt).toBe(rows[5]?.at.toISOString());
    await expect(
      shop.sql('update part_expectations set note = $2 where line_item_id = $1', [work.itemIds[0], 'x']),
    ).rejects.toMatchObject({ constraint: 'part_expectations_append_only' });
    await expect(
      shop.sql('delete from part_expectations where line_item_id = $1', [work.itemIds[0]]),
    ).rejects.toMatchObject({ constraint: 'part_expectations_append_only' });
  });

  it('but not of what does not come in, is all here, or is not sent', async () => {
    const work = await floor.work({ items: [{ name: 'hose' }, { kind: 'fluid', name: 'oil' }] });
    const code = async (item: MadeWork, which = 0) =>
      (await tell(item, { expectedAt: at('12:00') }, which).expect(409)).body.code;
    expect(await code(work, 1)).toBe('item-does-not-arrive');
    const receive = (quantityHundredths: number) =>
      shop.frontDesk.post(`/line-items/${work.itemIds[0]}/receipts`, { quantityHundredths }).expect(201);
    await receive(100);
    expect(await code(work)).toBe('item-all-here');
    await receive(-50);
    await tell(work, { expectedAt: at('12:00') }).expect(201);
    const draft = await floor.line({ sent: false, items: [{}] });
    const early = await shop.frontDesk
      .post(`/line-items/${draft.itemIds[0]}/expectations`, { expectedAt: null })
      .expect(409);
    expect(early.body.code).toBe('revision-not-sent');
  });

  it('as a time that is still to come, from those who book parts in, about a part of their own shop', async () => {
    const work = await floor.work({ items: [{}] });
    const path = `/line-items/${work.itemIds[0]}/expectations`;
    for (const expectedAt of [at('08:00'), at('07:59'), '2026-03-12', '2026-02-30T10:00:00Z', 5, undefined]) {
      const bad = await tell(work, { expectedAt }).expect(422);
      expect(bad.body).toMatchObject({ code: 'request-invalid', fields: [{ pointer: '/expectedAt' }] });
    }
    const long = await tell(work, { expectedAt: null, note: 'x'.repeat(501) }).expect(422);
    expect(long.body.fields).toMatchObject([{ pointer: '/note' }]);
    await shop.technician.post(path, { expectedAt: null }).expect(403);
    const stranger = await (await shop.addShop('far-parts')).person('manager');
    await stranger.post(path, { expectedAt: null }).expect(404);
    await shop.frontDesk.post(`/line-items/${newId()}/expectations`, { expectedAt: null }).expect(404);
    expect(
      await shop.sql('select id from part_expectations where line_item_id = $1', [work.itemIds[0]]),
    ).toEqual([]);
  });
});
