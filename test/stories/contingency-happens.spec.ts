import { randomUUID } from 'node:crypto';
import request, { type Test } from 'supertest';
import { ContingencyBuilder, HOSE_CENTS, NUT, SCREW } from '../builders/contingency.js';
import { EstimateBuilder } from '../builders/estimate.js';
import { shopUnderTest, type Person, type ShopUnderTest } from '../support/shop-under-test.js';

const NOBODY = '0198a000-0000-7000-8000-000000000000';
const pointers = (body: unknown): string[] =>
  (body as { fields: { pointer: string }[] }).fields.map((f) => f.pointer);

describe('a contingency happens', () => {
  let shop: ShopUnderTest;
  let builder: ContingencyBuilder;
  let estimate: EstimateBuilder;
  beforeAll(async () => {
    shop = await shopUnderTest();
    estimate = await EstimateBuilder.withCatalogue(shop);
    builder = new ContingencyBuilder(shop, estimate);
  });
  beforeEach(() => shop.clock.passMinutes(10));
  afterAll(async () => {
    await shop.stop();
  });

  const reason = 'The nut turned with the pipe and rounded off.';
  const tell = (id: string, photoId: string, over: object = {}, who: Person = shop.technician): Test =>
    who.post(`/contingencies/${id}/trigger`, { reason, photoId, ...over });

  it('is charged as agreed, with its reason and photo, and the book hours grow by its hours', async () => {
    const work = await builder.underWay();
    const photoId = await builder.photo(work.nut.id);
    const { body } = await tell(work.nut.id, photoId).expect(200);
    expect(body).toMatchObject({
      contingencyId: work.nut.id,
      workOrderId: work.workOrderId,
      what: NUT.what,
      capCents: 15_000,
      bookHundredths: 230,
      authorisedCents: HOSE_CENTS + 13_686,
      contingentCents: 2000,
      trigger: {
        reason,
        photoId,
        hundredths: 80,
        labourCents: 10_360,
        partsCents: 2480,
        coreCents: 0,
        suppliesCents: 621,
        taxCents: 225,
        totalCents: 13_686,
        uncappedCents: 13_686,
        triggeredBy: 'Bram',
      },
    });
    const order = await shop.technician.get(`/work-orders/${work.workOrderId}`).expect(200);
    expect(order.body.bookHundredths).toBe(230);
    const board = await shop.technician.get('/board').expect(200);
    const ticket = (board.body.tickets as { workOrderId: string; bookHundredths: number }[]).find(
      (one) => one.workOrderId === work.workOrderId,
    );
    expect(ticket?.bookHundredths).toBe(230);
    const written = await shop.frontDesk.get(`/repair-orders/${work.repairOrderId}/estimate`).expect(200);
    expect(written.body).toMatchObject({
      authorisedCents: HOSE_CENTS + 13_686,
      contingentCents: 2000,
      revisions: [
        {
          approvedCents: HOSE_CENTS + 13_686,
          lines: [{ contingencies: [{ state: 'triggered', chargedCents: 13_686 }, { state: 'agreed' }] }],
        },
      ],
    });
    const audit = await shop.sql(
      `select actor_id, detail from audit_entries where action = 'contingency.trigger' and subject_id = $1`,
      [work.nut.id],
    );
    expect(audit).toMatchObject([
      { actor_id: shop.technician.staffId, detail: { reason, totalCents: 13_686, capCents: 15_000 } },
    ]);
    const told = await shop.sql<{ kind: string }>(
      `select kind from live_events where subjects->>'workOrderId' = $1 or subjects->>'contingencyId' = $2 order by id desc limit 2`,
      [work.workOrderId, work.nut.id],
    );
    expect(told.map(({ kind }) => kind).sort()).toEqual(['decision', 'work-order']);
  });

  it('never costs more than its cap, and the rest is let off', async () => {
    const work = await builder.underWay();
    const photoId = await builder.photo(work.screw.id);
    const { body } = await tell(work.screw.id, photoId).expect(200);
    // The part 6.40; supplies 6 % of 246.05 = 14.76 less 11.66 = 3.10; tax 7.25 % of 9.50 = 0.69; of 51.80 labour 9.81 is left.
    expect(body.trigger).toMatchObject({
      hundredths: 40,
      labourCents: 981,
      partsCents: 640,
      suppliesCents: 310,
      taxCents: 69,
      totalCents: 2000,
      uncappedCents: 6199,
    });
    expect(body.breakdown.rule).toContain('61.99 without the cap of 20.00, tax included');
    const [kept] = await shop.sql<{ total_cents: number; breakdown: unknown }>(
      'select total_cents, breakdown from contingency_triggers where contingency_id = $1',
      [work.screw.id],
    );
    expect(kept).toEqual({ total_cents: 2000, breakdown: body.breakdown });
  });

  it('is charged for what was really used; more than was offered is for desk and manager to tell', async () => {
    const work = await builder.underWay();
    const photoId = await builder.photo(work.nut.id);
    const [pipe] = work.nut.items;
    const more = { hundredths: 81, items: [{ itemId: pipe?.id, quantityHundredths: 101 }] };
    const refused = await tell(work.nut.id, photoId, more).expect(422);
    expect(pointers(refused.body)).toEqual(['/hundredths', '/items/0/quantityHundredths']);
    const stray = { items: [{ itemId: NOBODY, quantityHundredths: 1 }] };
    expect(pointers((await tell(work.nut.id, photoId, stray).expect(422)).body)).toEqual(['/items/0/itemId']);
    const less = { hundredths: 50, items: [{ itemId: pipe?.id, quantityHundredths: 0 }] };
    const { body } = await tell(work.nut.id, photoId, less).expect(200);
    // 0.50 h 64.75; supplies 6 % of 259.00 = 15.54 less 11.66 = 3.88; tax 7.25 % of 3.88 = 0.28.
    expect(body).toMatchObject({
      bookHundredths: 200,
      trigger: { labourCents: 6475, partsCents: 0, suppliesCents: 388, taxCents: 28, totalCents: 6891 },
    });
    const other = await builder.underWay();
    const picture = await builder.photo(other.nut.id);
    // Supplies at their cap 23.34, pipe 24.80, tax 3.49: of 518.00 labour 98.37 is left.
    const long = await tell(other.nut.id, picture, { hundredths: 400 }, shop.frontDesk).expect(200);
    expect(long.body.trigger).toMatchObject({ hundredths: 400, totalCents: 15_000, labourCents: 9837 });
  });

  it('counts in the review: sold against clocked, and in what may be invoiced', async () => {
    const work = await builder.underWay();
    await tell(work.nut.id, await builder.photo(work.nut.id)).expect(200);
    await shop.technician.post(`/work-orders/${work.workOrderId}/finish`).expect(200);
    await shop.manager.post(`/work-orders/${work.workOrderId}/check`, { passed: true }).expect(200);
    const { body } = await shop.manager.get(`/review/repair-orders/${work.repairOrderId}`).expect(200);
    expect(body).toMatchObject({
      authorisedCents: HOSE_CENTS + 13_686,
      invoiceableCents: HOSE_CENTS + 13_686,
      contingentCents: 2000,
      lines: [
        {
          totalCents: HOSE_CENTS + 13_686,
          contingencyHundredths: 80,
          contingencyCents: 13_686,
          comparison: {
            soldHundredths: 230,
            clockedSeconds: 1800,
            labourCents: 19_425 + 10_360,
            partsCents: 3400 + 2480,
          },
          technicians: [{ displayName: 'Bram', creditedHundredths: 230 }],
        },
      ],
    });
  });

  it('shares the cap of the supplies with everything else that is agreed to, before and after it', async () => {
    const work = await builder.underWay();
    await tell(work.nut.id, await builder.photo(work.nut.id)).expect(200);
    // Struts later on: their wheel is off already (4.40 h 569.80); supplies 35.00 in all less 11.66 and 6.21 agreed before.
    const line = await estimate.line(work.repairOrderId, 'struts');
    const { body } = await shop.frontDesk
      .post(`/revisions/${line.revisionId}/prices`, { chosen: [line.id] })
      .expect(200);
    expect(body.totals).toMatchObject({ labourCents: 56_980, suppliesCents: 3500 - 1166 - 621 });
  });

  describe('and is not charged', () => {
    const refusal = async (test: Test): Promise<[number, string, string]> => {
      const { status, body } = await test;
      return [status, body.code as string, body.detail as string];
    };

    it('unless the owner has agreed: a further revision, or what they say by phone', async () => {
      const hose = await builder.sentHose();
      await builder.answer(hose, { contingencies: [{ contingencyId: hose.screw.id, agreed: false }] });
      await builder.begin(hose.lineId);
      await shop.technician.post('/clock/off').expect(200);
      for (const id of [hose.nut.id, hose.screw.id]) {
        const photoId = await builder.photo(id);
        for (const who of [shop.technician, shop.manager])
          expect(await refusal(tell(id, photoId, {}, who))).toEqual([
            409,
            'contingency-not-agreed',
            expect.stringMatching(/further revision.*or record what they say by phone/),
          ]);
      }
      const agreed = { answers: [], contingencies: [{ contingencyId: hose.nut.id, agreed: true }] };
      await builder.answer(hose, { ...agreed, expectedTotalCents: 0 }).expect(200);
      await tell(hose.nut.id, await builder.photo(hose.nut.id)).expect(200);
    });

    it('twice, whoever tells it again; the same sending again gets the same answer', async () => {
      const work = await builder.underWay();
      const photoId = await builder.photo(work.nut.id);
      const key = { 'idempotency-key': `"${randomUUID()}"` };
      const path = `/contingencies/${work.nut.id}/trigger`;
      const first = await shop.technician.post(path, { reason, photoId }, key).expect(200);
      const again = await shop.technician.post(path, { reason, photoId }, key).expect(200);
      expect(again.body).toEqual(first.body);
      expect(await refusal(tell(work.nut.id, photoId))).toEqual([
        409,
        'contingency-triggered',
        expect.any(String),
      ]);
      const order = await shop.technician.get(`/work-orders/${work.workOrderId}`).expect(200);
      expect(order.body.bookHundredths).toBe(230);
      const late = { answers: [], contingencies: [{ contingencyId: work.nut.id, agreed: false }] };
      const refused = await builder.answer(work, { ...late, expectedTotalCents: 0 }).expect(409);
      expect(refused.body.code).toBe('contingency-triggered');
      const declined = { answers: [{ lineId: work.lineId, answer: 'declined' }], expectedTotalCents: 0 };
      expect((await builder.answer(work, declined).expect(409)).body.code).toBe('work-already-begun');
    });

    it('before work has begun, after it was checked, or by somebody who does not hold it', async () => {
      const hose = await builder.agreed();
      const photoId = await builder.photo(hose.nut.id);
      const tellIt = (who: Person): Test => tell(hose.nut.id, photoId, {}, who);
      expect(await refusal(tellIt(shop.frontDesk))).toEqual([
        409,
        'work-not-begun',
        expect.stringContaining('Clock on first'),
      ]);
      const workOrderId = await builder.begin(hose.lineId);
      expect(await refusal(tellIt(shop.secondTechnician))).toEqual([
        409,
        'work-order-not-held',
        expect.any(String),
      ]);
      await shop.technician.post(`/work-orders/${workOrderId}/finish`).expect(200);
      await tellIt(shop.frontDesk).expect(200);
      await shop.manager.post(`/work-orders/${workOrderId}/check`, { passed: true }).expect(200);
      const screw = await builder.photo(hose.screw.id);
      expect(await refusal(tell(hose.screw.id, screw, {}, shop.manager))).toEqual([
        409,
        'work-order-state',
        expect.stringContaining('further revision'),
      ]);
    });

    it('without its own photo and a reason, nor by a stranger', async () => {
      const work = await builder.underWay();
      const other = await builder.photo(work.screw.id);
      expect(pointers((await tell(work.nut.id, other).expect(422)).body)).toEqual(['/photoId']);
      const wordless = await shop.technician
        .post(`/contingencies/${work.nut.id}/trigger`, { reason: ' ', photoId: 'x' })
        .expect(422);
      expect(pointers(wordless.body)).toEqual(['/reason', '/photoId']);
      await tell(NOBODY, other).expect(404);
      await request(shop.url).post(`/api/v1/contingencies/${work.nut.id}/trigger`).send({}).expect(401);
      const elsewhere = await shop.addShop(`away-${Date.now().toString(36)}`);
      const stranger = await elsewhere.person('manager');
      await tell(work.nut.id, other, {}, stranger).expect(404);
      await stranger.get(`/work-orders/${work.workOrderId}/contingencies`).expect(404);
      expect((await builder.sendPhoto(work.nut.id, stranger)).status).toBe(404);
    });

    it('past the application either: the database itself refuses', async () => {
      const work = await builder.underWay();
      const photoId = await builder.photo(work.nut.id);
      await tell(work.nut.id, photoId).expect(200);
      const copy = (changes: Record<string, string>): Promise<unknown> => {
        const columns = `repair_order_id, line_id, work_order_id, agreed, reason, items, core_cents, supplies_cents, tax_cents,
          taxes, breakdown, triggered_at, triggered_by, shop_id, supplies_base_cents`;
        const own = {
          id: 'gen_random_uuid()',
          contingency_id: 'contingency_id',
          agreement_id: 'agreement_id',
          photo_id: 'photo_id',
          cap_cents: 'cap_cents',
          hundredths: 'hundredths',
          labour_cents: 'labour_cents',
          parts_cents: 'parts_cents',
          total_cents: 'total_cents',
          uncapped_cents: 'uncapped_cents',
          ...changes,
        };
        return shop.sql(
          `insert into contingency_triggers (${columns}, ${Object.keys(own).join(', ')})
           select ${columns}, ${Object.values(own).join(', ')} from contingency_triggers where contingency_id = $1`,
          [work.nut.id],
        );
      };
      const refuses = (changes: Record<string, string>, constraint: string): Promise<void> =>
        expect(copy(changes)).rejects.toMatchObject({ constraint });
      await refuses({}, 'contingency_triggers_once');
      const dear = { labour_cents: '100000', total_cents: 'total_cents - labour_cents + 100000' };
      await refuses({ ...dear, uncapped_cents: '1000000' }, 'contingency_triggers_within_cap');
      await refuses({ total_cents: 'total_cents - 1' }, 'contingency_triggers_adds_up');
      const screw = { contingency_id: `'${work.screw.id}'` };
      await refuses(screw, 'contingency_triggers_agreed');
      const [answer] = await shop.sql<{ id: string }>(
        'select id from contingency_decisions where contingency_id = $1',
        [work.screw.id],
      );
      const agreement = { ...screw, agreement_id: `'${answer?.id}'` };
      await refuses(agreement, 'contingency_triggers_agreed');
      const nothing = { labour_cents: '0', parts_cents: '0', total_cents: 'supplies_cents + tax_cents' };
      const capped = { ...agreement, ...nothing, cap_cents: '2000' };
      await refuses(capped, 'contingency_triggers_photo');
      const mind = { answers: [], contingencies: [{ contingencyId: work.screw.id, agreed: false }] };
      await builder.answer(work, { ...mind, expectedTotalCents: 0 }).expect(200);
      await refuses(capped, 'contingency_triggers_on_latest_answer');
      for (const change of [
        'update contingency_triggers set total_cents = 0 where contingency_id = $1',
        'delete from contingency_triggers where contingency_id = $1',
      ])
        await expect(shop.sql(change, [work.nut.id])).rejects.toMatchObject({
          constraint: 'contingency_triggers_append_only',
        });
      await expect(
        shop.sql('update contingency_decisions set agreed = false where contingency_id = $1', [work.nut.id]),
      ).rejects.toMatchObject({ constraint: 'contingency_decisions_append_only' });
    });
  });

  it('lists for the person at the car what may happen and what the owner said', async () => {
    const work = await builder.underWay();
    const path = `/work-orders/${work.workOrderId}/contingencies`;
    const before = await shop.technician.get(path).expect(200);
    expect(before.body).toMatchObject({
      workOrderId: work.workOrderId,
      items: [
        {
          contingencyId: work.nut.id,
          what: NUT.what,
          hundredths: 80,
          items: [{ words: 'Brake pipe, made up', quantityHundredths: 100 }],
          state: 'agreed',
          trigger: null,
        },
        { what: SCREW.what, state: 'agreed' },
      ],
    });
    await tell(work.nut.id, await builder.photo(work.nut.id)).expect(200);
    const after = await shop.technician.get(path).expect(200);
    expect(after.body.items[0]).toMatchObject({ state: 'triggered', trigger: { reason } });
    await shop.technician.get(`/work-orders/${NOBODY}/contingencies`).expect(404);
  });

  it('is shown to the owner with its photo, which no other link opens', async () => {
    const work = await builder.underWay();
    const photoId = await builder.photo(work.nut.id);
    const picture = (token: string): Test =>
      request(shop.url).get(`/o/${token}/photos/${photoId}?size=small`);
    await picture(work.token).expect(404);
    await tell(work.nut.id, photoId).expect(200);
    await picture(work.token).expect(200).expect('content-type', 'image/webp');
    const seen = await request(shop.url).get(`/api/v1/approval-links/${work.token}`).expect(200);
    expect(seen.body.lines[0].contingencies[0]).toMatchObject({
      state: 'triggered',
      chargedCents: 13_686,
      trigger: { reason, path: `/o/${work.token}/photos/${photoId}`, hundredths: 80 },
    });
    const other = await builder.sentHose();
    await picture(other.token).expect(404);
    await shop.frontDesk.get(`/photos/${photoId}`).expect(200);
  });

  it('takes a photo once, and none before the owner has been asked', async () => {
    const repairOrderId = await estimate.stay();
    const line = await estimate.line(repairOrderId, 'hose');
    const draft = await builder.add(line.id, NUT);
    const early = await builder.sendPhoto(draft.id);
    expect([early.status, (early.body as { code: string }).code]).toEqual([409, 'revision-not-sent']);
    const hose = await builder.agreed();
    const [one, same] = [await builder.photo(hose.nut.id), await builder.photo(hose.nut.id)];
    expect(same).toBe(one);
    expect(await builder.photo(hose.nut.id, '#112233')).not.toBe(one);
  });
});
