import { randomUUID } from 'node:crypto';
import { ContingencyBuilder, HOSE_CENTS } from '../builders/contingency.js';
import { EstimateBuilder, type LineName } from '../builders/estimate.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

/** The brakes of the builder are 2.20 h and 227.90 of parts, 547.65 in all. */
const BRAKES_SPREAD = {
  lowHundredths: 200,
  highHundredths: 400,
  lowItemsCents: 20_000,
  highItemsCents: 30_000,
};
const BRAKES_CENTS = 54_765;
const NUT_CENTS = 13_686;

describe('the manager scores what was said before the job', () => {
  let shop: ShopUnderTest;
  let estimate: EstimateBuilder;
  let contingency: ContingencyBuilder;
  beforeAll(async () => {
    shop = await shopUnderTest();
    estimate = await EstimateBuilder.withCatalogue(shop);
    contingency = new ContingencyBuilder(shop, estimate);
    // Nothing is uncertain here but what a story says.
    await shop.sql('update shops set common_spread_ppm = 0');
  });
  beforeEach(() => shop.clock.passMinutes(10));
  afterAll(async () => {
    await shop.stop();
  });

  const of = async (id: string) => (await shop.manager.get(`/review/repair-orders/${id}`).expect(200)).body;
  const ranges = async (days = 'from=2026-03-11&to=2026-03-11') =>
    (await shop.manager.get(`/review/ranges?${days}`).expect(200)).body;
  const approve = async (
    sent: { revision: { id: string; shownSha256: string } },
    lineId: string,
    expectedTotalCents: number,
  ): Promise<void> => {
    await shop.frontDesk
      .post(`/revisions/${sent.revision.id}/decisions`, {
        answers: [{ lineId, answer: 'approved' }],
        shownSha256: sent.revision.shownSha256,
        expectedTotalCents,
        decidedBy: 'Ines Halloway',
        channel: 'phone',
        numberCalled: '+12025550111',
      })
      .expect(200);
  };
  /** All that was released is done and checked, and the car leaves; the floor itself has stories of its own. */
  const pickUp = async (repairOrderId: string): Promise<void> => {
    await shop.sql(
      `update work_orders set finished_at = $2, finished_by = $3, checked_at = $2, checked_by = $4
        where repair_order_id = $1`,
      [repairOrderId, shop.clock.now(), shop.technician.staffId, shop.secondTechnician.staffId],
    );
    await shop.sql('update claims set released_at = $1 where released_at is null', [shop.clock.now()]);
    await shop.sql('update repair_orders set picked_up_at = $2, odometer_out = odometer_in where id = $1', [
      repairOrderId,
      shop.clock.now(),
    ]);
  };
  /** One line in a revision that the owner agrees to, and the range that was shown with it. */
  const agreed = async (name: LineName, total: number, over: object = {}) => {
    const repairOrderId = await estimate.stay();
    const line = await estimate.line(repairOrderId, name, over);
    const sent = await estimate.send(line.revisionId);
    const shown = await shop.frontDesk
      .post(`/revisions/${line.revisionId}/ranges`, { chosen: [line.id] })
      .expect(200);
    await approve(sent, line.id, total);
    return { repairOrderId, shown: shown.body };
  };
  /** Something is found under way, sent and agreed to as well; its price is read from the offer. */
  const foundLater = async (repairOrderId: string, name: LineName): Promise<number> => {
    shop.clock.passMinutes(5);
    const line = await estimate.line(repairOrderId, name);
    const sent = await estimate.send(line.revisionId);
    const priced = await shop.frontDesk
      .post(`/revisions/${line.revisionId}/prices`, { chosen: [line.id] })
      .expect(200);
    const total = priced.body.totals.totalCents as number;
    await approve(sent, line.id, total);
    return total;
  };

  it('has nothing to say before anything was picked up', async () => {
    expect(await ranges()).toMatchObject({
      pickedUp: 0,
      unscored: 0,
      leftOut: 0,
      held: [{ level: 50, ppm: null }, { level: 80, ppm: null, intervalLowPpm: null }, { level: 95 }],
      singleAmounts: { numerator: 0, denominator: 0, ppm: null },
      overP80: [],
    });
  });

  it('holds each total against the range that the owner was shown, and lists what went above', async () => {
    // Held: the price stays what was agreed to, and the range told of more.
    const brakes = await agreed('brakes', BRAKES_CENTS, { spread: BRAKES_SPREAD });
    expect(await of(brakes.repairOrderId)).toMatchObject({
      pickedUpAt: null,
      range: null,
      totalCents: null,
      isWithinP80: null,
      band: null,
    });
    await pickUp(brakes.repairOrderId);
    const { p10Cents, p50Cents, p80Cents, p95Cents } = brakes.shown;
    expect(p10Cents).toBeLessThan(p80Cents);
    expect(await of(brakes.repairOrderId)).toMatchObject({
      pickedUpAt: shop.clock.now().toISOString(),
      range: { p10Cents, p50Cents, p80Cents, p95Cents },
      totalCents: BRAKES_CENTS,
      isWithinP80: true,
      laterCents: 0,
    });

    // Broken: with a chance of a quarter the nut was not in the P50, and what was found later is beyond the P80.
    const hose = await contingency.underWay();
    const photoId = await contingency.photo(hose.nut.id);
    await shop.technician
      .post(`/contingencies/${hose.nut.id}/trigger`, { reason: 'It turned with the pipe.', photoId })
      .expect(200);
    const struts = await foundLater(hose.repairOrderId, 'struts');
    await pickUp(hose.repairOrderId);
    const broken = await of(hose.repairOrderId);
    expect(broken.range).toMatchObject({ p10Cents: HOSE_CENTS, p50Cents: HOSE_CENTS });
    // P80: the nut is in it, with the screw or without (25 and 8 of 100, so 69 of 100 have neither).
    expect(broken.range.p80Cents).toBeGreaterThan(HOSE_CENTS + 13_000);
    expect(broken).toMatchObject({
      totalCents: HOSE_CENTS + NUT_CENTS + struts,
      isWithinP80: false,
      band: 'above-p95',
      laterCents: struts,
    });

    // A single amount that held, one that did not, and a stay on which nothing was sold.
    await pickUp((await agreed('hose', HOSE_CENTS)).repairOrderId);
    const one = await agreed('hose', HOSE_CENTS);
    const more = await foundLater(one.repairOrderId, 'struts');
    await pickUp(one.repairOrderId);
    await pickUp(await estimate.stay());
    await agreed('hose', HOSE_CENTS);

    const review = await ranges();
    const uncertain = 'repair orders picked up of which something was uncertain';
    expect(review).toMatchObject({ pickedUp: 5, unscored: 1, leftOut: 0 });
    expect(review.held.map((share: { level: number }) => share.level)).toEqual([50, 80, 95]);
    // Wilson, 1 of 2 at 95 percent: 0.0945 to 0.9055 (worked by hand).
    expect(review.held[1]).toEqual({
      level: 80,
      label: `${uncertain} whose total stayed at or below their P80 ÷ ${uncertain}`,
      numerator: 1,
      denominator: 2,
      ppm: 500_000,
      expectedPpm: 800_000,
      intervalLowPpm: 94_531,
      intervalHighPpm: 905_469,
    });
    expect(review.singleAmounts).toMatchObject({ numerator: 1, denominator: 2, ppm: 500_000 });
    const above = [
      {
        repairOrderId: hose.repairOrderId,
        totalCents: broken.totalCents,
        p80Cents: broken.range.p80Cents,
        overCents: broken.totalCents - broken.range.p80Cents,
        contingencyCents: NUT_CENTS,
        laterCents: struts,
      },
      {
        repairOrderId: one.repairOrderId,
        totalCents: HOSE_CENTS + more,
        p80Cents: HOSE_CENTS,
        overCents: more,
        contingencyCents: 0,
        laterCents: more,
      },
    ].sort((a, b) => b.overCents - a.overCents);
    expect(review.overP80).toMatchObject(above);
    // What was said cannot move: not with the shop's terms, and not with the day on which it is asked.
    await shop.sql('update shops set common_spread_ppm = 500000');
    shop.clock.passMinutes(24 * 60);
    expect(await ranges()).toEqual(review);
    expect(await ranges('from=2026-03-12&to=2026-03-12')).toMatchObject({ pickedUp: 0, overP80: [] });
    await shop.sql('update shops set common_spread_ppm = 0');
  });

  it('takes two revisions that the owner had before he agreed as one', async () => {
    const repairOrderId = await estimate.stay();
    const first = await estimate.line(repairOrderId, 'brakes', { spread: BRAKES_SPREAD });
    const one = await estimate.send(first.revisionId);
    const second = await estimate.line(repairOrderId, 'struts');
    const two = await estimate.send(second.revisionId);
    shop.clock.passMinutes(30);
    await approve(one, first.id, BRAKES_CENTS);
    const priced = await shop.frontDesk
      .post(`/revisions/${second.revisionId}/prices`, { chosen: [second.id] })
      .expect(200);
    const struts = priced.body.totals.totalCents as number;
    await approve(two, second.id, struts);
    await pickUp(repairOrderId);
    const body = await of(repairOrderId);
    expect(body).toMatchObject({ totalCents: BRAKES_CENTS + struts, laterCents: 0, isWithinP80: true });
    expect(body.range.p10Cents).toBeGreaterThan(BRAKES_CENTS);
    expect(body.range.p95Cents).toBeGreaterThan(BRAKES_CENTS + struts);
  });

  it('is the managers’, stays in the shop, and asks for a period that makes sense', async () => {
    const path = '/review/ranges?from=2026-03-11&to=2026-03-12';
    for (const person of [shop.technician, shop.frontDesk]) await person.get(path).expect(403);
    expect((await fetch(`${shop.url}/api/v1${path}`)).status).toBe(401);
    await shop.manager.get(`/review/repair-orders/${randomUUID()}`).expect(404);
    const stranger = await (await shop.addShop('other-yard')).person('manager');
    expect((await stranger.get(path).expect(200)).body).toMatchObject({ pickedUp: 0, overP80: [] });
    for (const [query, pointer] of [
      ['from=2026-03-11', '/to'],
      ['to=2026-03-11', '/from'],
      ['from=2026-02-30&to=2026-03-11', '/from'],
      ['from=2026-03-12&to=2026-03-11', '/to'],
      ['from=2025-01-01&to=2026-03-11', '/to'],
    ])
      expect((await shop.manager.get(`/review/ranges?${query}`).expect(422)).body.fields[0].pointer).toBe(
        pointer,
      );
  });
});
