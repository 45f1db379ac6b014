import request from 'supertest';
import { ContingencyBuilder, HOSE_CENTS, NUT, SCREW, type SentHose } from '../builders/contingency.js';
import { EstimateBuilder } from '../builders/estimate.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

const NOBODY = '0198a000-0000-7000-8000-000000000000';
const pointers = (body: unknown): string[] =>
  (body as { fields: { pointer: string }[] }).fields.map((f) => f.pointer);
interface Contingency {
  id: string;
  state: string;
  capCents: number;
  priceCents: number;
  chargedCents: number | null;
}
interface EstimateBody {
  authorisedCents: number;
  contingentCents: number;
  revisions: { approvedCents: number; lines: { contingencies: Contingency[] }[] }[];
}

describe('a contingency is agreed to in advance', () => {
  let shop: ShopUnderTest;
  let estimate: EstimateBuilder;
  let builder: ContingencyBuilder;
  beforeAll(async () => {
    shop = await shopUnderTest();
    estimate = await EstimateBuilder.withCatalogue(shop);
    builder = new ContingencyBuilder(shop, estimate);
  });
  beforeEach(() => shop.clock.passMinutes(10));
  afterAll(async () => {
    await shop.stop();
  });

  const estimateOf = async (repairOrderId: string): Promise<EstimateBody> =>
    (await shop.frontDesk.get(`/repair-orders/${repairOrderId}/estimate`).expect(200)).body as EstimateBody;
  const states = async (hose: SentHose): Promise<string[]> =>
    (await estimateOf(hose.repairOrderId)).revisions[0]?.lines[0]?.contingencies.map((one) => one.state) ??
    [];
  const nutOf = (hose: SentHose, agreed: boolean): object => ({ contingencyId: hose.nut.id, agreed });

  describe('written by the desk', () => {
    it('stands under its line with what it would come to, apart from the line and its price', async () => {
      const repairOrderId = await estimate.stay();
      const line = await estimate.line(repairOrderId, 'hose');
      const made = await shop.frontDesk.post(`/lines/${line.id}/contingencies`, NUT).expect(201);
      expect(made.body).toMatchObject({
        lineId: line.id,
        revisionId: line.revisionId,
        version: line.version + 1,
        sequence: 1,
        what: NUT.what,
        chancePpm: 250_000,
        hundredths: 80,
        capCents: 15_000,
        priceCents: 13_686,
        state: 'proposed',
        chargedCents: null,
        trigger: null,
        items: [{ name: 'Brake pipe, made up', unitCostCents: 900, coreCents: 0 }],
      });
      const seen = await shop.technician.get(`/repair-orders/${repairOrderId}/estimate`).expect(200);
      expect(seen.body.revisions[0].lines[0]).toMatchObject({
        alone: { totalCents: HOSE_CENTS },
        contingencies: [{ id: made.body.id, items: [{ unitCostCents: null }] }],
      });
    });

    it('is changed and taken away on the version that was read, and goes with its line', async () => {
      const repairOrderId = await estimate.stay();
      const line = await estimate.line(repairOrderId, 'hose');
      const { id, version } = await builder.add(line.id, NUT);
      const changed = await shop.frontDesk
        .patch(`/contingencies/${id}`, { capCents: 9000, items: [] }, version)
        .expect(200);
      expect(changed.body).toMatchObject({ capCents: 9000, items: [], what: NUT.what, version: version + 1 });
      expect(changed.headers['etag']).toBe(`"${version + 1}"`);
      await shop.frontDesk.patch(`/contingencies/${id}`, { capCents: 1 }, version).expect(412);
      await shop.frontDesk.delete(`/contingencies/${id}`).expect(428);
      const gone = { 'if-match': `"${version + 1}"` };
      await shop.frontDesk.delete(`/contingencies/${id}`, undefined, gone).expect(204);
      await builder.add(line.id, SCREW);
      await shop.frontDesk.delete(`/lines/${line.id}`, undefined, { 'if-match': '*' }).expect(204);
      expect(await shop.sql('select id from contingencies where line_id = $1', [line.id])).toEqual([]);
    });

    it('must add something, say a chance and a cap, and describe its parts', async () => {
      const repairOrderId = await estimate.stay();
      const line = await estimate.line(repairOrderId, 'hose');
      const path = `/lines/${line.id}/contingencies`;
      const wrong = async (body: object): Promise<string[]> =>
        pointers((await shop.frontDesk.post(path, body).expect(422)).body);
      expect(await wrong({ ...NUT, what: ' ', chancePpm: 0, capCents: 0, hundredths: -1 })).toEqual([
        '/what',
        '/chancePpm',
        '/hundredths',
        '/capCents',
      ]);
      expect(await wrong({ ...NUT, chancePpm: 1_000_000 })).toEqual(['/chancePpm']);
      expect(await wrong({ ...NUT, hundredths: 0, items: [] })).toEqual(['/hundredths']);
      const part = { kind: 'part', name: 'Pipe', quantityHundredths: 100, unitPriceCents: 1 };
      expect(await wrong({ ...NUT, items: [part] })).toEqual(['/items/0/condition', '/items/0/source']);
    });

    it('is for the desk, of this shop, and frozen once the revision is sent', async () => {
      const hose = await builder.sentHose();
      await shop.technician.post(`/lines/${hose.lineId}/contingencies`, NUT).expect(403);
      await shop.frontDesk.post(`/lines/${NOBODY}/contingencies`, NUT).expect(404);
      await shop.frontDesk.patch(`/contingencies/${NOBODY}`, { capCents: 1 }, 1).expect(404);
      const other = await shop.addShop(`other-${Date.now().toString(36)}`);
      const stranger = await other.person('manager');
      await stranger.patch(`/contingencies/${hose.nut.id}`, { capCents: 1 }, 1).expect(404);
      for (const refused of [
        await shop.frontDesk.post(`/lines/${hose.lineId}/contingencies`, NUT),
        await shop.frontDesk.patch(`/contingencies/${hose.nut.id}`, { capCents: 1 }, hose.revision.version),
      ])
        expect(refused.body).toMatchObject({ status: 409, code: 'revision-already-sent' });
      await expect(
        shop.sql('update contingencies set cap_cents = 99 where id = $1', [hose.nut.id]),
      ).rejects.toMatchObject({ constraint: 'revisions_sent_stays' });
      await expect(
        shop.sql('delete from contingency_items where contingency_id = $1', [hose.nut.id]),
      ).rejects.toMatchObject({ constraint: 'revisions_sent_stays' });
    });

    it('is part of what is frozen and hashed, and shown to the owner', async () => {
      const hose = await builder.sentHose();
      const seen = await request(shop.url).get(`/api/v1/approval-links/${hose.token}`).expect(200);
      expect(seen.body).toMatchObject({
        contingentCents: 0,
        chosen: { totalCents: 0 },
        lines: [
          {
            contingencies: [
              { what: NUT.what, chancePpm: 250_000, capCents: 15_000, state: 'proposed', trigger: null },
              { what: SCREW.what, capCents: 2000 },
            ],
          },
        ],
      });
      const [row] = await shop.sql<{ shown: { lines: { contingencies: object[] }[] } }>(
        'select shown from revisions where id = $1',
        [hose.revisionId],
      );
      expect(row?.shown.lines[0]?.contingencies).toMatchObject([{ id: hose.nut.id, capCents: 15_000 }, {}]);
    });
  });

  describe('answered by the owner', () => {
    it('separately from the line: the line is agreed to, the cap told beside it and charged to nobody', async () => {
      const hose = await builder.sentHose();
      const { body } = await builder.answer(hose, { contingencies: [nutOf(hose, true)] }).expect(200);
      expect(body).toMatchObject({
        repeated: false,
        approvedCents: HOSE_CENTS,
        authorisedCents: HOSE_CENTS,
        contingentCents: 15_000,
        contingencies: [
          { contingencyId: hose.nut.id, state: 'agreed', capCents: 15_000, chargedCents: null },
          { contingencyId: hose.screw.id, state: 'proposed' },
        ],
      });
      expect(await estimateOf(hose.repairOrderId)).toMatchObject({
        authorisedCents: HOSE_CENTS,
        contingentCents: 15_000,
      });
      const log = await shop.frontDesk.get(`/repair-orders/${hose.repairOrderId}/decisions`).expect(200);
      expect(log.body.contingencies).toMatchObject([
        {
          what: NUT.what,
          agreed: true,
          capCents: 15_000,
          because: 'answered',
          channel: 'link',
          decidedBy: 'Ines Halloway',
          shownSha256: hose.revision.shownSha256,
          counts: true,
        },
      ]);
    });

    it('nothing is a yes of itself: approving the line agrees to none of them', async () => {
      const hose = await builder.sentHose();
      await builder.answer(hose).expect(200);
      expect(await states(hose)).toEqual(['proposed', 'proposed']);
      expect((await estimateOf(hose.repairOrderId)).contingentCents).toBe(0);
    });

    it('only with its line', async () => {
      const hose = await builder.sentHose();
      const alone = { answers: [], expectedTotalCents: 0, contingencies: [nutOf(hose, true)] };
      const refused = await builder.answer(hose, alone).expect(409);
      expect(refused.body).toMatchObject({
        code: 'contingency-without-line',
        contingencies: [{ contingencyId: hose.nut.id, what: NUT.what }],
      });
      const declined = [{ lineId: hose.lineId, answer: 'declined' }];
      await builder.answer(hose, { ...alone, answers: declined }).expect(409);
      expect(await shop.sql('select id from decisions where line_id = $1', [hose.lineId])).toEqual([]);
      expect(await states(hose)).toEqual(['proposed', 'proposed']);
    });

    it('once: a repeat adds nothing, and of a shown page only', async () => {
      const hose = await builder.sentHose();
      const answers = { contingencies: [nutOf(hose, true), { contingencyId: hose.screw.id, agreed: false }] };
      await builder.answer(hose, answers).expect(200);
      const again = await builder.answer(hose, answers).expect(200);
      expect(again.body.repeated).toBe(true);
      const count = await shop.sql('select id from contingency_decisions where line_id = $1', [hose.lineId]);
      expect(count).toHaveLength(2);
      const twice = { contingencies: [nutOf(hose, true), nutOf(hose, false)] };
      expect(pointers((await builder.answer(hose, twice).expect(422)).body)).toEqual([
        '/contingencies/1/contingencyId',
      ]);
      const stray = { contingencies: [{ contingencyId: NOBODY, agreed: true }] };
      const unknown = await builder.answer(hose, stray).expect(422);
      expect(unknown.body).toMatchObject({
        code: 'contingency-not-in-revision',
        fields: [{ pointer: '/contingencies/0/contingencyId' }],
      });
      const shapeless = { contingencies: [{ contingencyId: 'x', agreed: 'yes' }] };
      expect(pointers((await builder.answer(hose, shapeless).expect(422)).body)).toEqual([
        '/contingencies/0/contingencyId',
        '/contingencies/0/agreed',
      ]);
      const stale = { contingencies: [nutOf(hose, false)], expectedTotalCents: HOSE_CENTS + 1 };
      expect((await builder.answer(hose, stale).expect(409)).body.code).toBe('shown-has-changed');
    });

    it('with another mind until it happens, by link or phone; giving up the line ends it', async () => {
      const hose = await builder.agreed();
      await builder.answer(hose, { answers: [], contingencies: [nutOf(hose, false)] }).expect(200);
      expect(await states(hose)).toEqual(['refused', 'agreed']);
      await shop.frontDesk
        .post(`/revisions/${hose.revisionId}/decisions`, {
          answers: [],
          contingencies: [nutOf(hose, true)],
          shownSha256: hose.revision.shownSha256,
          expectedTotalCents: HOSE_CENTS,
          decidedBy: 'Ines Halloway',
          channel: 'phone',
          numberCalled: '+12025550147',
        })
        .expect(200);
      expect(await states(hose)).toEqual(['agreed', 'agreed']);
      const declined = [{ lineId: hose.lineId, answer: 'declined' }];
      const given = await builder.answer(hose, { answers: declined, expectedTotalCents: 0 }).expect(200);
      expect(given.body).toMatchObject({ authorisedCents: 0, contingentCents: 0 });
      expect(await states(hose)).toEqual(['refused', 'refused']);
      const rows = await shop.sql(
        'select sequence, agreed, because, channel from contingency_decisions where contingency_id = $1 order by sequence',
        [hose.nut.id],
      );
      expect(rows).toEqual([
        { sequence: 1, agreed: true, because: 'answered', channel: 'link' },
        { sequence: 2, agreed: false, because: 'answered', channel: 'link' },
        { sequence: 3, agreed: true, because: 'answered', channel: 'phone' },
        { sequence: 4, agreed: false, because: 'line-given-up', channel: 'link' },
      ]);
      await builder.answer(hose).expect(200);
      expect(await states(hose)).toEqual(['refused', 'refused']);
    });
  });
});
