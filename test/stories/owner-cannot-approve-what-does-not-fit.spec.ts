import { EstimateBuilder } from '../builders/estimate.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

describe('an owner approves only what can be done together', () => {
  let shop: ShopUnderTest;
  let estimate: EstimateBuilder;
  beforeAll(async () => {
    shop = await shopUnderTest();
    estimate = await EstimateBuilder.withCatalogue(shop);
  });
  afterAll(async () => {
    await shop.stop();
  });

  /** A new hose or a used one, and a report that needs the struts. */
  async function sent() {
    const repairOrderId = await estimate.stay();
    const add = async (over: object): Promise<string> =>
      (await shop.frontDesk.post(`/repair-orders/${repairOrderId}/lines`, over).expect(201)).body.id;
    const struts = await estimate.line(repairOrderId, 'struts');
    const hose = await estimate.line(repairOrderId, 'hose');
    const entered = { enteredHundredths: 30, enteredSource: "shop's own time" };
    const used = await add({ title: 'Used hose', ...entered, excludes: [hose.id] });
    const report = await add({ title: 'Geometry report', ...entered, requires: [struts.id] });
    const revisionId = struts.revisionId;
    const answer = await shop.frontDesk.post(`/revisions/${revisionId}/send`, {}).expect(200);
    const sha = answer.body.revision.shownSha256 as string;
    const decide = async (answers: Record<string, string>, sum: readonly string[]) => {
      const price = await shop.frontDesk.post(`/revisions/${revisionId}/prices`, { chosen: sum }).expect(200);
      return shop.frontDesk.post(`/revisions/${revisionId}/decisions`, {
        answers: Object.entries(answers).map(([lineId, given]) => ({ lineId, answer: given })),
        shownSha256: sha,
        expectedTotalCents: price.body.totals.totalCents,
        decidedBy: 'Aldis Brink',
        channel: 'in-person',
      });
    };
    return { repairOrderId, struts: struts.id, hose: hose.id, used, report, decide };
  }
  const decisionsOf = async (repairOrderId: string): Promise<unknown[]> =>
    (await shop.frontDesk.get(`/repair-orders/${repairOrderId}/decisions`).expect(200)).body.items;

  it('of two lines that stand in for each other one, and with a line what it needs', async () => {
    const { repairOrderId, struts, hose, used, report, decide } = await sent();
    const both = await decide({ [hose]: 'approved', [used]: 'approved' }, [hose, used]);
    expect([both.status, both.body.code]).toEqual([409, 'lines-not-together']);
    expect(both.body.detail).toContain('approve one of them only');
    const alone = await decide({ [report]: 'approved' }, [report]);
    expect([alone.status, alone.body.code]).toEqual([409, 'lines-not-together']);
    expect(alone.body.notTogether).toMatchObject([{ kind: 'requires', lineId: report, otherId: struts }]);
    expect(await decisionsOf(repairOrderId)).toEqual([]);

    const fit = { [hose]: 'approved', [used]: 'declined', [struts]: 'approved', [report]: 'approved' };
    expect((await decide(fit, [hose, struts, report])).status).toBe(200);
    const given = (await decisionsOf(repairOrderId)).length;
    // A changed mind must leave something that can be done, too.
    const without = await decide({ [struts]: 'declined' }, [hose, report]);
    expect([without.status, without.body.code]).toEqual([409, 'lines-not-together']);
    expect((await decide({ [struts]: 'declined', [report]: 'declined' }, [hose])).status).toBe(200);
    expect((await decisionsOf(repairOrderId)).length).toBeGreaterThan(given);
  });
});
