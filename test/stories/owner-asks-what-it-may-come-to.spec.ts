import request, { type Test } from 'supertest';
import { EstimateBuilder } from '../builders/estimate.js';
import { aCar, aStay, aTemplate, type TemplateBody } from '../support/cars.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

const NOBODY = '0198a000-0000-7000-8000-000000000000';
const pointers = (body: unknown): string[] =>
  (body as { fields: { pointer: string }[] }).fields.map((field) => field.pointer);

interface Share {
  readonly kind: string;
  readonly id: string | null;
  readonly words: string;
  readonly sharePpm: number;
}
interface RangeBody {
  readonly p10Cents: number;
  readonly p50Cents: number;
  readonly p80Cents: number;
  readonly p95Cents: number;
  readonly priceCents: number;
  readonly agreedCents: number;
  readonly seed: number;
  readonly shares: readonly Share[];
}

/** The brakes of the builder: 2.20 h and 227.90 of parts, 547.65 in all. */
const BRAKES_SPREAD = {
  lowHundredths: 200,
  highHundredths: 400,
  lowItemsCents: 20_000,
  highItemsCents: 30_000,
};
const JOINT = {
  component: 'lower ball joint',
  fromYears: 10,
  chancePpm: 400_000,
  lowCents: 15_000,
  likelyCents: 20_000,
  highCents: 45_000,
};

describe('the owner asks what it may come to', () => {
  let shop: ShopUnderTest;
  let estimate: EstimateBuilder;
  let template: TemplateBody;
  beforeAll(async () => {
    shop = await shopUnderTest();
    estimate = await EstimateBuilder.withCatalogue(shop);
    template = await aTemplate(shop);
  });
  afterAll(async () => {
    await shop.stop();
  });
  beforeEach(async () => {
    shop.clock.passMinutes(10);
    await spreadOfShop(0);
    await rates([]);
  });

  const version = async (): Promise<number> =>
    (await shop.administrator.get('/shop').expect(200)).body.version;
  const spreadOfShop = async (commonSpreadPpm: number): Promise<void> => {
    await shop.administrator.patch('/shop', { commonSpreadPpm }, await version()).expect(200);
  };
  const putRates = async (items: object[]): Promise<Test> =>
    shop.administrator.put('/shop/base-rates', { items }, await version());
  const rates = async (items: object[]): Promise<void> => {
    expect((await putRates(items)).status).toBe(200);
  };
  const ranges = (revisionId: string, chosen: string[]): Test =>
    shop.frontDesk.post(`/revisions/${revisionId}/ranges`, { chosen });
  const rangeOf = async (revisionId: string, chosen: string[]): Promise<RangeBody> =>
    (await ranges(revisionId, chosen).expect(200)).body as RangeBody;
  const pageOf = async (token: string): Promise<string> =>
    (await request(shop.url).get(`/o/${token}`).expect(200)).text;
  const share = (range: RangeBody, kind: string): number =>
    range.shares.filter((one) => one.kind === kind).reduce((sum, one) => sum + one.sharePpm, 0);

  /** A car whose ball joint could not be seen; what it is worth only if the shop has entered it. */
  async function walked(valueCents: number | null = null): Promise<string> {
    const car = await aCar(shop);
    await shop.sql('update vehicles set value_cents = $2 where id = $1', [car.vehicleId, valueCents]);
    const stay = await aStay(shop, car);
    const walk = await shop.technician
      .post(`/repair-orders/${stay.id}/inspections`, { templateId: template.id })
      .expect(201);
    const joint = template.stations
      .flatMap(({ checkpoints }) => checkpoints)
      .find(({ component }) => component === 'Lower ball joint');
    await request(`${shop.url}/api/v1`)
      .put(`/inspections/${walk.body.id as string}/observations/${joint?.id ?? ''}`)
      .set('authorization', `Bearer ${shop.technician.token}`)
      .send({ verdict: 'unseen', unseenReason: 'Under a cover that is rusted on' })
      .expect(200);
    return stay.id;
  }

  it('is a single amount where nothing varies, the price of the choice to the cent', async () => {
    const repairOrderId = await estimate.stay();
    const brakes = await estimate.line(repairOrderId, 'brakes');
    const struts = await estimate.line(repairOrderId, 'struts');
    const both = await rangeOf(brakes.revisionId, [brakes.id, struts.id]);
    const priced = await shop.frontDesk
      .post(`/revisions/${brakes.revisionId}/prices`, { chosen: [brakes.id, struts.id] })
      .expect(200);
    const total = priced.body.totals.totalCents as number;
    expect(total).toBeLessThan(54_765 + 97_016);
    expect(both).toMatchObject({ p10Cents: total, p50Cents: total, p95Cents: total, priceCents: total });
    expect(both.shares.every(({ sharePpm }) => sharePpm === 0)).toBe(true);
    expect(await rangeOf(brakes.revisionId, [])).toMatchObject({ p10Cents: 0, p95Cents: 0 });
    const read = await shop.frontDesk.get(`/repair-orders/${repairOrderId}/estimate`).expect(200);
    expect(read.body.revisions[0].range).toEqual(both);
    expect(read.body.vehicle).toEqual({ words: 'Corvane Tessel 2009', valueCents: null });
  });

  it('grows with the spread of a line, what moves all hours, what may happen and what was not seen', async () => {
    await rates([JOINT]);
    const repairOrderId = await walked();
    const brakes = await estimate.line(repairOrderId, 'brakes', { spread: BRAKES_SPREAD });
    expect((brakes as unknown as { spread: object }).spread).toEqual(BRAKES_SPREAD);
    const nut = await shop.frontDesk
      .post(`/lines/${brakes.id}/contingencies`, {
        what: 'A caliper bolt breaks',
        chancePpm: 300_000,
        hundredths: 100,
        capCents: 10_000,
        items: [],
      })
      .expect(201);
    const all = await rangeOf(brakes.revisionId, [brakes.id]);
    expect(all.p10Cents).toBeGreaterThan(50_000);
    expect(all.p10Cents).toBeLessThan(all.p50Cents);
    expect(all.p50Cents).toBeLessThan(all.p80Cents);
    // At the very most: 4 h, 300 of parts, supplies at their cap of 35, tax; the extra at its cap, the joint at its dearest.
    const most = 51_800 + 30_000 + 3500 + Math.round(33_500 * 0.0725) + 10_000 + 45_000;
    expect(all.p95Cents).toBeLessThan(most);
    expect(all.shares.map(({ kind }) => kind).sort()).toEqual(['common', 'contingency', 'line', 'unseen']);
    expect(all.shares.reduce((sum, { sharePpm }) => sum + sharePpm, 0)).toBe(1_000_000);
    expect(all.shares[0]).toMatchObject({ kind: 'unseen', words: 'Lower ball joint, front right' });
    expect(all.shares.find(({ kind }) => kind === 'contingency')).toMatchObject({
      id: nut.body.id as string,
      words: 'A caliper bolt breaks',
    });
    expect(share(all, 'common')).toBe(0);
    // The same revision, the same range; without the line only what was not seen is left.
    expect(await rangeOf(brakes.revisionId, [brakes.id])).toEqual(all);
    expect(await rangeOf(brakes.revisionId, [])).toMatchObject({ p50Cents: 0, priceCents: 0 });

    await spreadOfShop(300_000);
    const wider = await rangeOf(brakes.revisionId, [brakes.id]);
    expect(share(wider, 'common')).toBeGreaterThan(50_000);
    expect(wider.p95Cents).toBeGreaterThan(all.p95Cents);
  });

  it('knows a base rate by component and age only', async () => {
    const repairOrderId = await walked();
    const line = await estimate.line(repairOrderId, 'hose');
    const parts = async (): Promise<number> =>
      (await rangeOf(line.revisionId, [line.id])).shares.filter(({ kind }) => kind === 'unseen').length;
    expect(await parts()).toBe(0);
    await rates([JOINT]);
    expect(await parts()).toBe(1);
    // The car is of 2009 and the clock says 2026.
    await rates([{ ...JOINT, fromYears: 17, toYears: 17 }]);
    expect(await parts()).toBe(1);
    await rates([
      { ...JOINT, fromYears: 18 },
      { ...JOINT, fromYears: null, toYears: 16 },
    ]);
    expect(await parts()).toBe(0);
    await rates([{ ...JOINT, component: 'Upper ball joint' }]);
    expect(await parts()).toBe(0);
  });

  it('stays as it was sent, fixes what the owner agrees to, and is read in plain words', async () => {
    await rates([JOINT]);
    await spreadOfShop(150_000);
    const repairOrderId = await walked(250_000);
    const brakes = await estimate.line(repairOrderId, 'brakes', { spread: BRAKES_SPREAD });
    const struts = await estimate.line(repairOrderId, 'struts');
    const both = [brakes.id, struts.id];
    const draft = await rangeOf(brakes.revisionId, both);
    const sent = await estimate.send(brakes.revisionId);
    await rates([]);
    await spreadOfShop(0);
    const range = await rangeOf(brakes.revisionId, both);
    expect(range).toEqual(draft);

    const shown = await request(shop.url).get(`/api/v1/approval-links/${sent.token}`).expect(200);
    expect(shown.body).toMatchObject({ range, vehicleValueCents: 250_000 });
    const page = await pageOf(sent.token);
    const whole = (amount: number): string => `$${Math.ceil(amount / 100).toLocaleString('en')}`;
    expect(page).toContain('What it may come to');
    expect(page).toMatch(/In 8 cases out of 10 it stays below<\/dt>\s*<dd>[^<]+/);
    expect(page).toContain(`<dd>${whole(range.p80Cents)}</dd>`);
    expect(page).toContain(`<dd>${whole(range.p95Cents)}</dd>`);
    expect(page).toMatch(/Lower ball joint, front right, which we could not see \(about/);
    expect(page).toContain('<svg class="bar"');
    expect(page).toContain(`<dd>${Math.round(range.priceCents / 2500)}\u00a0%</dd>`);

    await shop.frontDesk
      .post(`/revisions/${brakes.revisionId}/decisions`, {
        answers: [{ lineId: brakes.id, answer: 'approved' }],
        shownSha256: sent.revision.shownSha256,
        expectedTotalCents: 54_765,
        decidedBy: 'Ines Halloway',
        channel: 'phone',
        numberCalled: '+12025550111',
      })
      .expect(200);
    const settled = await rangeOf(brakes.revisionId, [brakes.id]);
    expect(settled).toMatchObject({ p10Cents: 54_765, agreedCents: 54_765, priceCents: 54_765 });
    expect(settled.shares.filter(({ kind }) => kind === 'line')).toEqual([]);
    const after = await rangeOf(brakes.revisionId, both);
    expect(after.p95Cents - after.p10Cents).toBeLessThan(range.p95Cents - range.p10Cents);
    // The wheels come off for both, yet what was agreed to is told as it was agreed to, not as a share of both.
    expect(after.agreedCents).toBe(54_765);
    expect(await pageOf(sent.token)).toContain('The $547.65 that you have agreed to already');
  });

  it('is not drawn for an owner whose estimate holds nothing uncertain', async () => {
    const sent = await estimate.sent('hose');
    expect(await pageOf(sent.token)).not.toContain('What it may come to');
  });

  it('asks for a spread around the line, and for base rates that make sense', async () => {
    const repairOrderId = await estimate.stay();
    const finding = await estimate.finding(repairOrderId, 'brakes');
    const add = (spread: unknown): Test =>
      shop.frontDesk.post(
        `/repair-orders/${repairOrderId}/lines`,
        estimate.request('brakes', { findingIds: [finding.id], spread }),
      );
    expect(pointers((await add({ ...BRAKES_SPREAD, lowHundredths: 221 }).expect(422)).body)).toEqual([
      '/spread/lowHundredths',
    ]);
    expect(
      pointers(
        (await add({ ...BRAKES_SPREAD, highHundredths: 219, highItemsCents: 22_789 }).expect(422)).body,
      ),
    ).toEqual(['/spread/highHundredths', '/spread/highItemsCents']);
    expect(pointers((await add({ lowHundredths: 1.5 }).expect(422)).body)).toContain('/spread/lowHundredths');
    expect(pointers((await add('wide').expect(422)).body)).toEqual(['/spread']);
    const line = (await add(BRAKES_SPREAD).expect(201)).body as { id: string; version: number };
    const items = estimate.request('brakes')['items'] as { unitPriceCents: number }[];
    const dearer = items.map((item) => ({ ...item, unitPriceCents: item.unitPriceCents * 2 }));
    const refused = await shop.frontDesk
      .patch(`/lines/${line.id}`, { items: dearer }, line.version)
      .expect(422);
    expect(pointers(refused.body)).toEqual(['/spread/highItemsCents']);
    const sure = await shop.frontDesk.patch(`/lines/${line.id}`, { spread: null }, line.version).expect(200);
    expect(sure.body.spread).toBeNull();

    const wrong = async (...items: object[]): Promise<string[]> => {
      const answer = await putRates(items);
      expect((answer as unknown as { status: number }).status).toBe(422);
      return pointers((answer as unknown as { body: unknown }).body);
    };
    expect(await wrong({ ...JOINT, lowCents: 20_001 })).toEqual(['/items/0/likelyCents']);
    expect(await wrong({ ...JOINT, chancePpm: 1_000_001 })).toEqual(['/items/0/chancePpm']);
    expect(await wrong(JOINT, { ...JOINT, component: 'LOWER BALL JOINT', fromYears: 20 })).toEqual([
      '/items/1/component',
    ]);
    expect(await wrong({ ...JOINT, toYears: 9 })).toEqual(['/items/0/toYears']);
  });

  it('is for whoever writes estimates, of this shop, and changes nothing', async () => {
    const sent = await estimate.sent('hose');
    await shop.technician.post(`/revisions/${sent.revisionId}/ranges`, { chosen: [] }).expect(403);
    await ranges(NOBODY, []).expect(404);
    expect((await ranges(sent.revisionId, [NOBODY]).expect(422)).body.code).toBe('line-not-in-revision');
    expect(pointers((await ranges(sent.revisionId, ['x']).expect(422)).body)).toEqual(['/chosen']);
    await request(shop.url)
      .post(`/api/v1/revisions/${sent.revisionId}/ranges`)
      .send({ chosen: [] })
      .expect(401);
    const other = await shop.addShop('other-yard');
    const stranger = await other.person('front-desk');
    await stranger.post(`/revisions/${sent.revisionId}/ranges`, { chosen: [] }).expect(404);
    await shop.manager.put('/shop/base-rates', { items: [] }, await version()).expect(403);
    await shop.administrator.put('/shop/base-rates', { items: [] }, 1).expect(412);
    const read = await shop.frontDesk.get('/shop/base-rates').expect(200);
    expect(read.body).toEqual({ items: [], version: await version() });
  });
});
