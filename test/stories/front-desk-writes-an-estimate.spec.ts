import { createHash } from 'node:crypto';
import canonicalize from 'canonicalize';
import request from 'supertest';
import { newId } from '#server/platform/ids';
import { EstimateBuilder, LINES } from '../builders/estimate.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

describe('the front desk writes an estimate', () => {
  let shop: ShopUnderTest;
  let estimate: EstimateBuilder;
  beforeAll(async () => {
    shop = await shopUnderTest();
    estimate = await EstimateBuilder.withCatalogue(shop);
  });
  afterAll(async () => {
    await shop.stop();
  });

  const revisionOf = async (repairOrderId: string, at = 0) =>
    (await shop.frontDesk.get(`/repair-orders/${repairOrderId}/estimate`).expect(200)).body.revisions[at];

  it('takes title, reason and consequence from the finding, the default rate, and the hours of the catalogue', async () => {
    const repairOrderId = await estimate.stay();
    const line = await estimate.line(repairOrderId, 'brakes');
    expect(line).toMatchObject({
      title: LINES.brakes.title,
      explanation: LINES.brakes.why,
      consequence: LINES.brakes.wait,
      word: 'Unsafe',
      rateCentsPerHour: 12950,
      version: 1,
      sequence: 1,
      decision: null,
      steps: [
        { position: 'vehicle', hundredths: 60 },
        { position: 'front', hundredths: 80 },
        { position: 'front-left', hundredths: 40 },
        { position: 'front-right', hundredths: 40 },
      ],
    });
    // Worked by hand in the builder.
    expect(line.alone).toMatchObject({
      hundredths: 220,
      labourCents: 28_490,
      partsCents: 22_790,
      suppliesCents: 1709,
      taxCents: 1776,
      totalCents: 54_765,
    });
  });

  it('sees every line alone and with the others, and every figure explained in words and adding up', async () => {
    const repairOrderId = await estimate.stay();
    for (const name of ['brakes', 'struts', 'hose'] as const) await estimate.line(repairOrderId, name);
    const revision = await revisionOf(repairOrderId);
    expect(revision).toMatchObject({ number: 1, state: 'draft', version: 3, shownSha256: null });
    expect(revision.lines.map((line: { alone: { totalCents: number } }) => line.alone.totalCents)).toEqual([
      54_765, 97_016, 24_322,
    ]);
    expect(revision.totals).toMatchObject({ hundredths: 670, labourCents: 86_765, totalCents: 149_710 });
    const sum = (field: string): number =>
      revision.lines.reduce(
        (total: number, line: { together: Record<string, number> }) => total + (line.together[field] ?? 0),
        0,
      );
    for (const field of [
      'hundredths',
      'labourCents',
      'partsCents',
      'suppliesCents',
      'taxCents',
      'totalCents',
    ])
      expect([field, sum(field)]).toEqual([field, revision.totals[field]]);
    expect(revision.breakdown.cents).toBe(149_710);
    expect(JSON.stringify(revision.breakdown)).toContain('wheel, front-left');
    expect(JSON.stringify(revision)).toContain('shared by 3 lines');

    const chosen = [revision.lines[0].id, revision.lines[2].id];
    const price = await shop.frontDesk.post(`/revisions/${revision.id}/prices`, { chosen }).expect(200);
    // Brakes and hose: wheels 0.80, pads 0.80, bleed 0.60, hose 0.50 = 2.70 h = 349.65; supplies 20.98; parts 261.90; tax 20.51.
    expect(price.body.totals).toMatchObject({
      hundredths: 270,
      labourCents: 34_965,
      suppliesCents: 2098,
      taxCents: 2051,
      totalCents: 65_304,
    });
    expect(price.body.savedCents).toBe(54_765 + 24_322 - 65_304);
    const struts = price.body.lines.find((line: { chosen: boolean }) => !line.chosen);
    expect(struts.ifAddedCents).toBe(149_710 - 65_304);
    const stray = await shop.frontDesk
      .post(`/revisions/${revision.id}/prices`, { chosen: [newId()] })
      .expect(422);
    expect(stray.body.code).toBe('line-not-in-revision');
  });

  it('enters hours of its own with their source, and never shows the cost of a part to a technician', async () => {
    const repairOrderId = await estimate.stay();
    const made = await shop.frontDesk
      .post(`/repair-orders/${repairOrderId}/lines`, {
        title: 'Oil and filter',
        enteredHundredths: 50,
        enteredSource: "shop's own time",
        items: [
          {
            kind: 'fluid',
            name: 'Oil, litre',
            quantityHundredths: 450,
            unitPriceCents: 1200,
            unitCostCents: 500,
          },
        ],
      })
      .expect(201);
    // 0.50 h = 64.75; oil 4.5 × 12.00 = 54.00; supplies 3.885 → 3.89 (3.885 is half up); tax 7.25 % of 57.89 = 4.197 → 4.20.
    expect(made.body).toMatchObject({
      word: null,
      enteredSource: "shop's own time",
      steps: [],
      alone: {
        hundredths: 50,
        labourCents: 6475,
        partsCents: 5400,
        suppliesCents: 389,
        taxCents: 420,
        totalCents: 12_684,
      },
    });
    expect(made.body.items[0].unitCostCents).toBe(500);
    const seen = await shop.technician.get(`/repair-orders/${repairOrderId}/estimate`).expect(200);
    expect(seen.body.revisions[0].lines[0].items[0].unitCostCents).toBeNull();
    await shop.technician.post(`/repair-orders/${repairOrderId}/lines`, {}).expect(403);
  });

  it('changes and removes lines of a draft by its version, and keeps the hours that were saved', async () => {
    const repairOrderId = await estimate.stay();
    const brakes = await estimate.line(repairOrderId, 'brakes');
    const hose = await estimate.line(repairOrderId, 'hose');
    expect(hose.version).toBe(2);
    const stale = await shop.frontDesk.patch(`/lines/${brakes.id}`, { title: 'Brakes' }, 1).expect(412);
    expect(stale.body).toMatchObject({ code: 'stale-version', currentVersion: 2 });
    await request(shop.url)
      .patch(`/api/v1/lines/${brakes.id}`)
      .set('authorization', `Bearer ${shop.frontDesk.token}`)
      .send({ title: 'Brakes' })
      .expect(428);
    const renamed = await shop.frontDesk
      .patch(`/lines/${brakes.id}`, { title: 'Brakes at the front', consequence: null, items: [] }, 2)
      .expect(200);
    expect(renamed.headers['etag']).toBe('"3"');
    expect(renamed.body).toMatchObject({
      title: 'Brakes at the front',
      consequence: null,
      items: [],
      alone: { hundredths: 220 },
    });
    const entered = await shop.frontDesk
      .patch(`/lines/${brakes.id}`, { enteredHundredths: 175, enteredSource: 'own time' }, 3)
      .expect(200);
    expect(entered.body).toMatchObject({ alone: { hundredths: 175 }, steps: [] });
    const back = await shop.frontDesk
      .patch(`/lines/${brakes.id}`, { enteredHundredths: null }, 4)
      .expect(200);
    expect(back.body).toMatchObject({ alone: { hundredths: 220 }, enteredSource: null });
    await shop.frontDesk.delete(`/lines/${hose.id}`, undefined, { 'if-match': '"4"' }).expect(412);
    await shop.frontDesk.delete(`/lines/${hose.id}`, undefined, { 'if-match': '"5"' }).expect(204);
    const revision = await revisionOf(repairOrderId);
    expect(revision.lines.map((line: { id: string }) => line.id)).toEqual([brakes.id]);
    expect(revision.version).toBe(6);
  });

  it('is told every field that does not fit, and nothing is saved', async () => {
    const repairOrderId = await estimate.stay();
    const post = (body: object) => shop.frontDesk.post(`/repair-orders/${repairOrderId}/lines`, body);
    const pointers = (body: { fields: { pointer: string }[] }): string[] =>
      body.fields.map(({ pointer }) => pointer).sort();
    const shape = await post({
      title: '',
      operations: [{ operationId: 'x', positions: ['roof'] }],
      items: [{ kind: 'gift' }],
    }).expect(422);
    expect(pointers(shape.body)).toEqual([
      '/items/0/kind',
      '/items/0/name',
      '/items/0/quantityHundredths',
      '/operations/0/operationId',
      '/operations/0/positions',
      '/title',
    ]);
    const meaning = await post({
      enteredHundredths: 50,
      items: [{ kind: 'part', name: 'Hose', quantityHundredths: 100, unitPriceCents: 1 }],
    }).expect(422);
    expect(pointers(meaning.body)).toEqual([
      '/enteredSource',
      '/items/0/condition',
      '/items/0/source',
      '/title',
    ]);
    expect(pointers((await post({ title: 'Nothing to do' }).expect(422)).body)).toEqual(['/operations']);
    const strangers = await post(estimate.request('hose', { title: 'Hose', findingIds: [newId()] })).expect(
      404,
    );
    expect(pointers(strangers.body)).toEqual(['/findingIds/0']);
    const noSuch = await post({
      title: 'x',
      operations: [{ operationId: newId(), positions: ['front'] }],
    }).expect(404);
    expect(pointers(noSuch.body)).toEqual(['/operations/0/operationId']);
    const place = await post({
      title: 'x',
      operations: [{ operationId: estimate.operationId('HOSE'), positions: ['engine'] }],
    }).expect(422);
    expect(place.body.code).toBe('position-not-possible');
    const huge = await post({
      title: 'x',
      items: [{ kind: 'fee', name: 'x', quantityHundredths: 10_000_000, unitPriceCents: 100_000_000 }],
    }).expect(422);
    expect(huge.body.code).toBe('request-invalid');
    await shop.frontDesk
      .post(`/repair-orders/${newId()}/lines`, estimate.request('hose', { title: 'x' }))
      .expect(404);
    const other = await shop.addShop('elsewhere');
    const stranger = await other.person('front-desk');
    await stranger.get(`/repair-orders/${repairOrderId}/estimate`).expect(404);
    await stranger
      .post(`/repair-orders/${repairOrderId}/lines`, {
        title: 'x',
        enteredHundredths: 1,
        enteredSource: 'own',
      })
      .expect(404);
    const after = await shop.frontDesk.get(`/repair-orders/${repairOrderId}/estimate`).expect(200);
    expect(after.body.revisions).toEqual([]);
  });

  it('sends a revision: frozen, hashed, with a link whose address is nowhere kept', async () => {
    const repairOrderId = await estimate.stay();
    const line = await estimate.line(repairOrderId, 'brakes');
    await shop.frontDesk.post(`/revisions/${line.revisionId}/send`, {}, { 'if-match': '"9"' }).expect(412);
    const key = { 'idempotency-key': `"${newId()}"` };
    const sent = await shop.frontDesk
      .post(`/revisions/${line.revisionId}/send`, { validHours: 24 }, key)
      .expect(200);
    const again = await shop.frontDesk
      .post(`/revisions/${line.revisionId}/send`, { validHours: 24 }, key)
      .expect(200);
    expect(again.body).toEqual(sent.body);
    expect(again.headers['idempotent-replayed']).toBe('true');
    const token = sent.body.link.url.split('/o/')[1] as string;
    expect(token).toMatch(/^[A-Za-z0-9_-]{64}$/);
    expect(sent.body.revision).toMatchObject({
      state: 'sent',
      version: 2,
      sentBy: 'Wenna',
      totals: { totalCents: 54_765 },
    });
    expect(sent.body.link.expiresAt).toBe('2026-03-12T08:00:00.000Z');
    const [row] = await shop.sql<{ shown: object; shown_sha256: string; total_cents: number }>(
      'select shown, shown_sha256, total_cents from revisions where id = $1',
      [line.revisionId],
    );
    const canonical = canonicalize(row?.shown) ?? '';
    expect(createHash('sha256').update(canonical).digest('hex')).toBe(row?.shown_sha256);
    expect(row).toMatchObject({ total_cents: 54_765, shown_sha256: sent.body.revision.shownSha256 });
    expect(row?.shown).toMatchObject({
      about: { shopName: 'Kestrel Yard', vehicle: 'Corvane Tessel', odometer: 148_210, revisionNumber: 1 },
      lines: [{ verdict: 'Unsafe', mayDrive: 'The car must not be driven with it.', why: LINES.brakes.why }],
      policy: { taxRounding: 'invoice' },
    });
    expect(canonical).not.toMatch(/cost/i);
    const tables = await shop.sql<{ name: string }>(
      `select table_name as name from information_schema.tables where table_schema = 'public' and table_type = 'BASE TABLE'`,
    );
    for (const { name } of tables) {
      const found = await shop.sql(`select 1 from ${name} t where t::text like $1 limit 1`, [
        `%${token.slice(24)}%`,
      ]);
      expect([name, found.length]).toEqual([name, 0]);
    }
    const [link] = await shop.sql<{ token_hash: string }>(
      'select token_hash from approval_links where id = $1',
      [sent.body.link.id],
    );
    expect(link?.token_hash).toBe(createHash('sha256').update(token).digest('hex'));
  });

  it('cannot change what was sent, by the API or past it', async () => {
    const { repairOrderId, revisionId, lines } = await estimate.sent('brakes');
    const patched = await shop.frontDesk.patch(`/lines/${lines.brakes}`, { title: 'x' }, '2').expect(409);
    expect(patched.body.code).toBe('revision-already-sent');
    await shop.frontDesk.delete(`/lines/${lines.brakes}`, undefined, { 'if-match': '*' }).expect(409);
    await shop.frontDesk.post(`/revisions/${revisionId}/send`).expect(409);
    const refused = { code: '23514', constraint: 'revisions_sent_stays' };
    for (const statement of [
      `update revisions set total_cents = 1 where id = '${revisionId}'`,
      `delete from revisions where id = '${revisionId}'`,
      `update lines set title = 'x' where id = '${lines.brakes}'`,
      `delete from line_items where line_id = '${lines.brakes}'`,
      `update line_steps set hundredths = 1 where line_id = '${lines.brakes}'`,
      `insert into line_items (shop_id, id, line_id, sequence, kind, name, quantity_hundredths, unit_price_cents, core_cents)
       values ('${shop.shopId}', '${newId()}', '${lines.brakes}', 9, 'fee', 'x', 100, 1, 0)`,
    ])
      await expect(shop.sql(statement)).rejects.toMatchObject(refused);
    // What comes next goes into a further revision, which the first line begins.
    const further = await estimate.line(repairOrderId, 'hose');
    expect(further.revisionId).not.toBe(revisionId);
    expect((await revisionOf(repairOrderId, 1)).number).toBe(2);
  });

  it('is not sent without lines, or without the words that the owner must read', async () => {
    const repairOrderId = await estimate.stay();
    const line = await estimate.line(repairOrderId, 'brakes', { findingIds: [], title: 'Brakes' });
    const removed = await shop.frontDesk.delete(`/lines/${line.id}`, undefined, { 'if-match': '*' });
    expect(removed.status).toBe(204);
    expect((await shop.frontDesk.post(`/revisions/${line.revisionId}/send`).expect(409)).body.code).toBe(
      'revision-empty',
    );
    const finding = await shop.technician
      .post(`/repair-orders/${repairOrderId}/findings`, {
        title: 'Noise',
        verdict: 'watch',
        mayDrive: 'yes',
        lookAgainOn: '2026-09-01',
      })
      .expect(201);
    await shop.frontDesk
      .post(
        `/repair-orders/${repairOrderId}/lines`,
        estimate.request('hose', { findingIds: [finding.body.id] }),
      )
      .expect(201);
    const mute = await shop.frontDesk.post(`/revisions/${line.revisionId}/send`).expect(409);
    expect(mute.body).toMatchObject({ code: 'line-words-missing' });
    expect(mute.body.fields.map(({ pointer }: { pointer: string }) => pointer)).toEqual([
      '/lines/0/why',
      '/lines/0/consequence',
    ]);
  });

  it('makes further links, sees when they open no more, and takes them back', async () => {
    const { repairOrderId, revisionId, link } = await estimate.sent('brakes');
    const draft = await estimate.line(repairOrderId, 'hose');
    expect((await shop.frontDesk.post(`/revisions/${draft.revisionId}/links`).expect(409)).body.code).toBe(
      'revision-not-sent',
    );
    const second = await shop.frontDesk.post(`/revisions/${revisionId}/links`, { validHours: 1 }).expect(201);
    expect(second.body.url).not.toBe(link.url);
    await shop.technician.delete(`/links/${link.id}`).expect(403);
    await shop.frontDesk.delete(`/links/${link.id}`).expect(204);
    await shop.frontDesk.delete(`/links/${link.id}`).expect(204);
    await shop.frontDesk.delete(`/links/${newId()}`).expect(404);
    shop.clock.passMinutes(60);
    const list = await shop.frontDesk.get(`/repair-orders/${repairOrderId}/links`).expect(200);
    expect(list.body.items.map((one: { id: string; state: string }) => [one.id, one.state])).toEqual([
      [second.body.id, 'expired'],
      [link.id, 'revoked'],
    ]);
    expect(JSON.stringify(list.body)).not.toContain('/o/');
    await shop.frontDesk.get(`/repair-orders/${newId()}/links`).expect(404);
  });
});
