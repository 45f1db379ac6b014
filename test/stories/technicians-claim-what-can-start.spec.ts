import { randomUUID } from 'node:crypto';
import { FloorBuilder } from '../builders/floor.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

const kinds = (body: { holds: { kind: string }[] }): string[] => body.holds.map(({ kind }) => kind);

describe('technicians claim what can start', () => {
  let shop: ShopUnderTest;
  let floor: FloorBuilder;
  beforeAll(async () => {
    shop = await shopUnderTest();
    floor = new FloorBuilder(shop);
    await floor.bay();
    await floor.bay({ kind: 'flat' });
  });
  afterAll(async () => {
    await shop.stop();
  });
  const read = async (id: string) => (await shop.technician.get(`/work-orders/${id}`).expect(200)).body;

  it('an approved line is on the floor with its hours, needs and cautions in words', async () => {
    const toolId = await floor.tool(1, 'spring compressor');
    await floor.skill(shop.technician.staffId, 'suspension');
    const work = await floor.work({
      title: 'Rear struts',
      hundredths: 240,
      needsLift: true,
      skills: ['suspension'],
      cautions: ['SPRING-01'],
      toolIds: [toolId],
    });
    const body = await read(work.workOrderId);
    expect(body).toMatchObject({
      number: work.number,
      title: 'Rear struts',
      state: 'released',
      holds: [],
      canStart: true,
      bookHundredths: 240,
      clockedSeconds: 0,
      needsLift: true,
      skills: ['suspension'],
      tools: [{ id: toolId, name: 'spring compressor' }],
      vehicle: { label: 'Tarn Vale 1998' },
      claim: null,
      assignment: null,
      version: 1,
    });
    expect(body.cautions).toHaveLength(4);
    expect(body.cautions.join(' ')).toContain('compressor');
  });

  it('one claims; the next is told who has it and since when; a repeat by the holder changes nothing', async () => {
    const { workOrderId } = await floor.work();
    const made = await shop.technician.post(`/work-orders/${workOrderId}/claims`).expect(201);
    expect(made.body).toMatchObject({
      workOrderId,
      technicianId: shop.technician.staffId,
      displayName: 'Bram',
      claimedAt: shop.clock.now().toISOString(),
    });
    const late = await shop.secondTechnician.post(`/work-orders/${workOrderId}/claims`).expect(409);
    expect(late.body).toMatchObject({
      code: 'work-order-claimed',
      holder: { id: shop.technician.staffId, displayName: 'Bram' },
      since: shop.clock.now().toISOString(),
    });
    const again = await shop.technician.post(`/work-orders/${workOrderId}/claims`).expect(201);
    expect(again.body.id).toBe(made.body.id);
    expect(await read(workOrderId)).toMatchObject({ state: 'claimed', canStart: true });
  });

  it('waits for its parts, wherever they come from, until enough of them have come in', async () => {
    const work = await floor.work({
      items: [
        { name: 'pad set', hundredths: 200, expectedAt: '2026-03-12T19:00:00Z' },
        { kind: 'fluid', name: 'oil' },
      ],
    });
    const held = await read(work.workOrderId);
    expect(held).toMatchObject({
      canStart: false,
      holds: [
        {
          kind: 'parts',
          detail: 'Waiting for 2 of 2 × pad set, expected 2026-03-12 15:00.',
          until: '2026-03-12T19:00:00.000Z',
        },
      ],
    });
    const refused = await shop.technician.post(`/work-orders/${work.workOrderId}/claims`).expect(409);
    expect(refused.body).toMatchObject({ code: 'work-order-on-hold', holds: [{ kind: 'parts' }] });
    const [pads, oil] = work.itemIds;
    const needs = await shop.frontDesk.get(`/repair-orders/${work.repairOrderId}/part-needs`).expect(200);
    expect(needs.body.items).toMatchObject([
      { lineItemId: pads, workOrderId: work.workOrderId, neededHundredths: 200, missingHundredths: 200 },
    ]);
    const receive = (quantityHundredths: number, id = pads) =>
      shop.frontDesk.post(`/line-items/${id}/receipts`, { quantityHundredths });
    expect((await receive(100).expect(201)).body).toMatchObject({ receivedHundredths: 100 });
    expect(kinds(await read(work.workOrderId))).toEqual(['parts']);
    await receive(100).expect(201);
    expect(kinds(await read(work.workOrderId))).toEqual([]);
    await receive(-50).expect(201);
    expect(kinds(await read(work.workOrderId))).toEqual(['parts']);
    const below = await receive(-151).expect(422);
    expect(below.body.fields[0].pointer).toBe('/quantityHundredths');
    await receive(0).expect(422);
    expect((await receive(100, oil).expect(409)).body.code).toBe('item-does-not-arrive');
    await receive(50).expect(201);
    await shop.technician.post(`/work-orders/${work.workOrderId}/claims`).expect(201);
    const stored = await shop.sql(
      'select quantity_hundredths as q from part_receipts where line_item_id = $1 order by id',
      [pads],
    );
    expect(stored.map(({ q }) => q)).toEqual([100, 100, -50, 50]);
  });

  it('waits for sublet work, for a tool in use and for the work order before it', async () => {
    const order = await floor.repairOrder();
    const toolId = await floor.tool(1, 'camshaft lock');
    const user = await floor.work({ toolIds: [toolId] });
    const first = await floor.work({ title: 'Subframe off' }, order);
    const second = await floor.work(
      { title: 'Rack in', toolIds: [toolId], items: [{ kind: 'sublet', name: 'machining' }] },
      order,
    );
    const path = `/work-orders/${second.workOrderId}/earlier`;
    const changed = await shop.manager.put(path, { earlierIds: [first.workOrderId] }, 1).expect(200);
    expect(changed.body).toMatchObject({ version: 2, earlier: [{ id: first.workOrderId, finished: false }] });
    await shop.secondTechnician.post('/work-orders/' + user.workOrderId + '/claims').expect(201);
    await shop.sql(
      `insert into clock_entries (shop_id, id, technician_id, kind, work_order_id, started_at, recorded_by)
       values ($1, $2, $3, 'work', $4, $5, $3)`,
      [shop.shopId, randomUUID(), shop.secondTechnician.staffId, user.workOrderId, shop.clock.now()],
    );
    const body = await read(second.workOrderId);
    expect(kinds(body)).toEqual(['tool', 'earlier-work-order', 'sublet']);
    expect(body.holds[0].detail).toBe('The only "camshaft lock" is in use.');
    expect(body.holds[1].detail).toContain('Subframe off');
    // The one who uses the tool does not wait for it.
    expect(kinds(await read(user.workOrderId))).toEqual([]);
    const refused = await shop.technician.post(`/work-orders/${second.workOrderId}/claims`).expect(409);
    expect(kinds(refused.body)).toEqual(['tool', 'earlier-work-order', 'sublet']);
    await shop.secondTechnician.post(`/work-orders/${user.workOrderId}/finish`).expect(200);
    await shop.frontDesk
      .post(`/line-items/${second.itemIds[0]}/receipts`, { quantityHundredths: 100 })
      .expect(201);
    expect(kinds(await read(second.workOrderId))).toEqual(['earlier-work-order']);
    await shop.manager.put(path, { earlierIds: [] }, 2).expect(200);
    expect(kinds(await read(second.workOrderId))).toEqual([]);
  });

  it('says when no bay in service can take the vehicle, and when nobody may do the work', async () => {
    const heavy = await floor.work({ needsLift: true }, await floor.repairOrder({ weightKg: 4200 }));
    const unknown = await floor.work({ needsLift: true }, await floor.repairOrder({ weightKg: null }));
    expect((await read(heavy.workOrderId)).holds).toMatchObject([
      { kind: 'bay', detail: 'No lift in service carries 4200 kg; the strongest is rated for 3500 kg.' },
    ]);
    expect(kinds(await read(unknown.workOrderId))).toEqual(['bay']);
    const rare = await floor.work({ skills: ['609'] });
    await floor.skill(shop.technician.staffId, '609', '2026-03-10');
    expect(kinds(await read(rare.workOrderId))).toEqual(['technician']);
    const expired = await shop.technician.post(`/work-orders/${rare.workOrderId}/claims`).expect(409);
    expect(expired.body).toMatchObject({ code: 'technician-not-qualified' });
    expect(expired.body.detail).toContain('2026-03-10');
    await floor.skill(shop.secondTechnician.staffId, '609', '2026-03-11');
    expect(kinds(await read(rare.workOrderId))).toEqual([]);
    await shop.technician.post(`/work-orders/${rare.workOrderId}/claims`).expect(409);
    await shop.secondTechnician.post(`/work-orders/${rare.workOrderId}/claims`).expect(201);
  });

  it('refuses an order in which work orders would wait for each other, and names the circle', async () => {
    const order = await floor.repairOrder();
    const [a, b, c] = [await floor.work({}, order), await floor.work({}, order), await floor.work({}, order)];
    const set = (of: { workOrderId: string }, earlier: string[], version = 1) =>
      shop.manager.put(`/work-orders/${of.workOrderId}/earlier`, { earlierIds: earlier }, version);
    await set(b, [a.workOrderId]).expect(200);
    await set(c, [b.workOrderId]).expect(200);
    const circle = await set(a, [c.workOrderId]).expect(422);
    expect(circle.body).toMatchObject({
      code: 'earlier-work-order-cycle',
      numbers: [a.number, c.number, b.number, a.number],
    });
    await set(a, [a.workOrderId]).expect(422);
    const elsewhere = await floor.work();
    const foreign = await set(a, [elsewhere.workOrderId]).expect(404);
    expect(foreign.body.fields[0].pointer).toBe('/earlierIds/0');
    await set(a, [randomUUID()]).expect(404);
    const stale = await set(c, [], 1).expect(412);
    expect(stale.body.currentVersion).toBe(2);
    expect(
      (await shop.manager.put(`/work-orders/${a.workOrderId}/earlier`, { earlierIds: 'x' }, 1).expect(422))
        .body.fields,
    ).toMatchObject([{ pointer: '/earlierIds' }]);
  });

  it('is given back by its holder, or by a manager who says why; not by anybody else', async () => {
    const { workOrderId } = await floor.work();
    const path = `/work-orders/${workOrderId}/claims/current`;
    await shop.technician.delete(path).expect(409);
    await shop.technician.post(`/work-orders/${workOrderId}/claims`).expect(201);
    const other = await shop.secondTechnician.delete(path).expect(409);
    expect(other.body).toMatchObject({ code: 'work-order-not-held', holder: { displayName: 'Bram' } });
    const why = await shop.manager.delete(path).expect(422);
    expect(why.body.fields[0].pointer).toBe('/reason');
    await shop.manager.delete(path, { reason: 'Bram is ill today' }).expect(204);
    expect(await read(workOrderId)).toMatchObject({ state: 'released', claim: null });
    await shop.secondTechnician.post(`/work-orders/${workOrderId}/claims`).expect(201);
    await shop.secondTechnician.delete(path).expect(204);
    const kept = await shop.sql<{ release_reason: string | null }>(
      'select release_reason from claims where work_order_id = $1 order by id',
      [workOrderId],
    );
    expect(kept.map((claim) => claim.release_reason)).toEqual(['Bram is ill today', null]);
  });

  it('a withdrawn work order leaves the floor with its claim and its place, and a new yes releases a new one', async () => {
    const work = await floor.work();
    await shop.technician.post(`/work-orders/${work.workOrderId}/claims`).expect(201);
    await floor.decide(work.repairOrderId, work.lineId, 'declined');
    await floor.withdraw(work.lineId);
    expect(await read(work.workOrderId)).toMatchObject({
      state: 'withdrawn',
      claim: null,
      holds: [],
      canStart: false,
    });
    const gone = await shop.technician.post(`/work-orders/${work.workOrderId}/claims`).expect(409);
    expect(gone.body.code).toBe('work-order-state');
    const decisionId = await floor.decide(work.repairOrderId, work.lineId, 'approved', { hundredths: 130 });
    const again = await floor.release({ ...work, decisionId });
    expect(again.workOrderId).not.toBe(work.workOrderId);
    const anew = await floor.decide(work.repairOrderId, work.lineId, 'approved', { hundredths: 150 });
    expect(await floor.release({ ...work, decisionId: anew })).toEqual(again);
    expect(await read(again.workOrderId)).toMatchObject({
      bookHundredths: 150,
      decisionId: anew,
      version: 2,
    });
  });

  it('lists by state what each one says about itself, page by page', async () => {
    const all = await shop.frontDesk.get('/work-orders?limit=200').expect(200);
    const states: string[] = [...new Set<string>(all.body.items.map((w: { state: string }) => w.state))];
    expect(states.length).toBeGreaterThanOrEqual(4);
    for (const state of states) {
      const some = await shop.frontDesk.get(`/work-orders?limit=200&state=${state}`).expect(200);
      expect(some.body.items).toEqual(all.body.items.filter((w: { state: string }) => w.state === state));
    }
    const pages: number[] = [];
    let cursor: string | null = '';
    while (cursor !== null) {
      const page: { body: { items: { number: number }[]; nextCursor: string | null } } = await shop.frontDesk
        .get(`/work-orders?limit=5${cursor ? `&cursor=${cursor}` : ''}`)
        .expect(200);
      pages.push(...page.body.items.map(({ number }) => number));
      cursor = page.body.nextCursor;
    }
    expect(pages).toEqual(all.body.items.map((w: { number: number }) => w.number));
    await shop.frontDesk.get('/work-orders?state=lost').expect(422);
    await shop.frontDesk.get('/work-orders?cursor=zzz').expect(422);
  });

  it('keeps strangers out: other shops see nothing, the front desk claims nothing, nobody unsigned does anything', async () => {
    const { workOrderId, itemIds, repairOrderId } = await floor.work({ items: [{}] });
    const stranger = await (await shop.addShop('other-yard')).person('manager');
    for (const [method, path] of [
      ['get', `/work-orders/${workOrderId}`],
      ['post', `/work-orders/${workOrderId}/claims`],
      ['delete', `/work-orders/${workOrderId}/claims/current`],
      ['post', `/work-orders/${workOrderId}/finish`],
      ['get', `/repair-orders/${repairOrderId}/part-needs`],
      ['get', '/work-orders/not-an-id'],
    ] as const)
      expect((await stranger[method](path)).status).toBe(404);
    await stranger.post(`/work-orders/${workOrderId}/check`, { passed: true }).expect(404);
    await stranger.put(`/work-orders/${workOrderId}/earlier`, { earlierIds: [] }, 1).expect(404);
    await stranger.post(`/line-items/${itemIds[0]}/receipts`, { quantityHundredths: 100 }).expect(404);
    await shop.frontDesk.post(`/work-orders/${workOrderId}/claims`).expect(403);
    await shop.technician.post(`/line-items/${itemIds[0]}/receipts`, { quantityHundredths: 1 }).expect(403);
    const bad = await shop.frontDesk
      .post(`/line-items/${itemIds[0]}/receipts`, { quantityHundredths: 1.5 })
      .expect(422);
    expect(bad.body.fields).toMatchObject([{ pointer: '/quantityHundredths' }]);
    const draft = await floor.line({ sent: false, items: [{}] });
    const early = await shop.frontDesk
      .post(`/line-items/${draft.itemIds[0]}/receipts`, { quantityHundredths: 100 })
      .expect(409);
    expect(early.body.code).toBe('revision-not-sent');
    const unsigned = await fetch(`${shop.url}/api/v1/work-orders/${workOrderId}`);
    expect(unsigned.status).toBe(401);
    const naked = await fetch(`${shop.url}/api/v1/work-orders/${workOrderId}/earlier`, {
      method: 'PUT',
      headers: { authorization: `Bearer ${shop.manager.token}`, 'content-type': 'application/json' },
      body: '{"earlierIds":[]}',
    });
    expect(naked.status).toBe(428);
  });
});
