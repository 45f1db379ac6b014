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
};
const item = (name: string, over: object): object => ({
  kind: 'part',
  name,
  condition: 'new',
  source: 'supplier',
  quantityHundredths: 100,
  ...over,
});
const ITEMS = [
  item('Seal kit', { priceRule: 'matrix', unitCostCents: 1001 }),
  item('Pump', { priceRule: 'margin', unitCostCents: 2200 }),
  item('Gasket', { priceRule: 'margin', unitCostCents: 7500, marginPpm: 250_000 }),
  item('Thermostat', { priceRule: 'list', listCents: 4321, unitCostCents: 2000 }),
  item('Head machining', { kind: 'sublet', priceRule: 'sublet-markup', unitCostCents: 22_000 }),
  item('Coolant, litre', { kind: 'fluid', unitPriceCents: 999, unitCostCents: 417 }),
];
/** By hand: 10.00 × 3 + 0.01 × 2.2; 22.00 / 0.6; 75.00 / 0.75; the list price; 220.00 and 15 %; as entered. */
const PRICES = [3002, 3667, 10_000, 4321, 25_300, 999];

interface ItemBody {
  unitPriceCents: number;
  unitCostCents: number | null;
  priceRule: string | null;
  marginPpm: number | null;
  listCents: number | null;
  priceBreakdown: { rule: string; cents: number; inputs: unknown[] } | null;
}

const pointers = (body: { fields?: { pointer: string }[] }): string[] =>
  (body.fields ?? []).map(({ pointer }) => pointer).sort();

/** Every name of a member, at any depth. */
function namesIn(value: unknown): string[] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([name, inner]) => [name, ...namesIn(inner)]);
}

describe('the front desk prices what it sells', () => {
  let shop: ShopUnderTest;
  let estimate: EstimateBuilder;
  beforeAll(async () => {
    shop = await shopUnderTest();
    estimate = await EstimateBuilder.withCatalogue(shop);
  });
  afterAll(async () => {
    await shop.stop();
  });
  beforeEach(async () => {
    await shop.administrator.put('/shop/price-rules', RULES, '*').expect(200);
  });

  const addLine = (repairOrderId: string, line: object) =>
    shop.frontDesk.post(`/repair-orders/${repairOrderId}/lines`, line);
  const revisionsOf = async (repairOrderId: string) =>
    (await shop.frontDesk.get(`/repair-orders/${repairOrderId}/estimate`).expect(200)).body.revisions;
  const pricesOf = async (revisionId: string, chosen: string[]) =>
    (await shop.frontDesk.post(`/revisions/${revisionId}/prices`, { chosen }).expect(200)).body;
  const decide = async (revisionId: string, chosen: string[], answered: string[], shownSha256: string) => {
    const { totals } = await pricesOf(revisionId, chosen);
    const decided = await shop.frontDesk
      .post(`/revisions/${revisionId}/decisions`, {
        shownSha256,
        expectedTotalCents: totals.totalCents,
        decidedBy: 'Ottoline Marsh',
        channel: 'phone',
        numberCalled: '+12025550147',
        answers: answered.map((lineId) => ({ lineId, answer: 'approved' })),
      })
      .expect(200);
    return { totals, decisions: decided.body.decisions as Record<string, number | string>[] };
  };
  const overhaul = { title: 'Cooling system', enteredHundredths: 300, enteredSource: "shop's own time" };

  it('by cost, margin, list price or markup, and sees how each price came about', async () => {
    const repairOrderId = await estimate.stay();
    const made = await addLine(repairOrderId, { ...overhaul, items: ITEMS }).expect(201);
    const items = made.body.items as ItemBody[];
    expect(items.map(({ unitPriceCents }) => unitPriceCents)).toEqual(PRICES);
    expect(items.map(({ marginPpm }) => marginPpm)).toEqual([null, 400_000, 250_000, null, null, null]);
    expect(items.map(({ priceBreakdown }) => priceBreakdown?.cents)).toEqual(PRICES);
    expect(items[0]?.priceBreakdown).toMatchObject({
      figure: 'unit price',
      inputs: [
        { figure: 'cost', cents: 1001 },
        { figure: 'band', of: 'from 0.00', cents: 3000, rule: '10.00 × 3' },
        { figure: 'band', of: 'from 10.00', cents: 2, rule: '0.01 × 2.2' },
      ],
    });
    expect(items[5]).toMatchObject({ priceRule: 'entered', priceBreakdown: { rule: 'as entered' } });

    // Whoever may not write estimates sees the prices, and nothing of what they were made of.
    const seen = await shop.technician.get(`/repair-orders/${repairOrderId}/estimate`).expect(200);
    const shown = seen.body.revisions[0].lines[0].items as ItemBody[];
    expect(shown.map(({ unitPriceCents }) => unitPriceCents)).toEqual(PRICES);
    for (const one of shown)
      expect([one.unitCostCents, one.priceRule, one.marginPpm, one.listCents, one.priceBreakdown]).toEqual([
        null,
        null,
        null,
        null,
        null,
      ]);
  });

  it('is told item by item what a rule still needs', async () => {
    const repairOrderId = await estimate.stay();
    const items = [
      item('Bolt', {}),
      item('Nut', { priceRule: 'matrix' }),
      item('Washer', { priceRule: 'list', unitCostCents: 10 }),
      item('Clip', { priceRule: 'sublet-markup' }),
      item('Pin', { priceRule: 'margin', unitCostCents: 10 }),
    ];
    const refused = await addLine(repairOrderId, { ...overhaul, items }).expect(422);
    expect(pointers(refused.body)).toEqual([
      '/items/0/unitPriceCents',
      '/items/1/unitCostCents',
      '/items/2/listCents',
      '/items/3/unitCostCents',
    ]);
    const none = { ...RULES, matrix: null, defaultMarginPpm: null };
    await shop.administrator.put('/shop/price-rules', none, '*').expect(200);
    const needs = [item('Nut', { priceRule: 'matrix', unitCostCents: 5 }), items[4]];
    const missing = await addLine(repairOrderId, { ...overhaul, items: needs }).expect(422);
    expect(pointers(missing.body)).toEqual(['/items/0/priceRule', '/items/1/marginPpm']);
    const shape = await addLine(repairOrderId, {
      ...overhaul,
      items: [item('Bolt', { priceRule: 'guess', marginPpm: 1_000_000 })],
      discount: { labourPpm: 1_000_001 },
      noCharge: 'why not',
    }).expect(422);
    expect(pointers(shape.body)).toEqual([
      '/discount/labourPpm',
      '/discount/reason',
      '/items/0/marginPpm',
      '/items/0/priceRule',
      '/noCharge',
    ]);
    expect(await revisionsOf(repairOrderId)).toEqual([]);
  });

  it('sends it, and neither later rules nor the owner’s view let a cost through or a price move', async () => {
    const repairOrderId = await estimate.stay();
    const line = await addLine(repairOrderId, { ...overhaul, items: ITEMS }).expect(201);
    const revisionId = line.body.revisionId as string;
    const sent = await estimate.send(revisionId);
    const [before] = await revisionsOf(repairOrderId);
    const price = await pricesOf(revisionId, [line.body.id as string]);
    const changed = {
      ...RULES,
      matrix: null,
      subletMarkupPpm: 900_000,
      suppliesBase: 'labour-and-parts',
      taxesCombined: true,
    };
    await shop.administrator.put('/shop/price-rules', changed, '*').expect(200);
    expect((await revisionsOf(repairOrderId))[0]).toEqual(before);
    expect(await pricesOf(revisionId, [line.body.id as string])).toEqual(price);

    const owner = await request(shop.url).get(`/api/v1/approval-links/${sent.token}`).expect(200);
    expect(owner.body.lines[0].items.map((one: ItemBody) => one.unitPriceCents)).toEqual(PRICES);
    expect(
      namesIn(owner.body).filter((name) => /cost|margin|rule$|list|source/i.test(name) && name !== 'source'),
    ).toEqual([]);
    const page = await request(shop.url).get(`/o/${sent.token}`).expect(200);
    const [document] = await shop.sql<{ shown: unknown }>('select shown from revisions where id = $1', [
      revisionId,
    ]);
    for (const text of [page.text, JSON.stringify(owner.body), JSON.stringify(document?.shown)])
      for (const cost of ['10.01', '1001', '220.00', '22000', '4.17', '"417"', ':417'])
        expect([cost, text.includes(cost)]).toEqual([cost, false]);

    // A further line goes by the rules of now.
    const later = await addLine(repairOrderId, { ...overhaul, title: 'Later', items: [ITEMS[4]] }).expect(
      201,
    );
    expect(later.body.items[0].unitPriceCents).toBe(41_800);
    const kept = await shop.frontDesk
      .patch(`/lines/${later.body.id as string}`, { title: 'Later on' }, '*')
      .expect(200);
    expect(kept.body.items[0]).toMatchObject({ unitPriceCents: 41_800, priceRule: 'sublet-markup' });
  });

  it('a package counts where its lines are chosen together, as two lines or as one', async () => {
    const brakes = { operationId: estimate.operationId('BRAKES'), positions: ['front'] };
    const struts = { operationId: estimate.operationId('STRUTS'), positions: ['front'] };
    const made = await shop.manager
      .post('/packages', { name: 'Front end', hundredths: 550, operations: [brakes, struts] })
      .expect(201);

    const repairOrderId = await estimate.stay();
    const first = await estimate.line(repairOrderId, 'brakes');
    const second = await estimate.line(repairOrderId, 'struts');
    const hose = await estimate.line(repairOrderId, 'hose');
    const revisionId = first.revisionId;
    const hours = async (...chosen: string[]): Promise<number> =>
      (await pricesOf(revisionId, chosen)).totals.hundredths as number;
    // Brakes 2.20 h, struts 4.80 h, one by one 6.20 h. The hose shares a wheel, so with it the package does not hold.
    expect(await hours(first.id)).toBe(220);
    expect(await hours(second.id)).toBe(480);
    expect(await hours(first.id, second.id)).toBe(550);
    expect(await hours(first.id, second.id, hose.id)).toBe(670);
    const [draft] = await revisionsOf(repairOrderId);
    expect(draft.packages).toEqual([{ name: 'Front end', lineIds: [first.id, second.id], hundredths: 550 }]);
    expect(JSON.stringify((await pricesOf(revisionId, [first.id, second.id])).breakdown)).toContain(
      'Front end',
    );

    const alone = await estimate.stay();
    const one = await addLine(alone, { title: 'Front end', operations: [brakes, struts] });
    expect([one.status, one.body.fields]).toEqual([201, undefined]);
    expect(one.body.alone).toMatchObject({ hundredths: 550, labourCents: 71_225 });
    const entered = await addLine(await estimate.stay(), {
      ...overhaul,
      operations: [brakes, struts],
    }).expect(201);
    expect(entered.body.alone.hundredths).toBe(300);

    // What was sent keeps its package, through the decisions one by one, when the shop has given it up.
    const sent = await estimate.send(revisionId);
    await shop.manager.patch(`/packages/${made.body.id as string}`, { isActive: false }, 1).expect(200);
    expect(await hours(first.id, second.id)).toBe(550);
    const again = await addLine(await estimate.stay(), {
      title: 'Front end',
      operations: [brakes, struts],
    }).expect(201);
    expect(again.body.alone.hundredths).toBe(620);
    const { totals, decisions } = await decide(
      revisionId,
      [first.id, second.id],
      [first.id, second.id],
      sent.revision.shownSha256,
    );
    const sum = (name: string): number =>
      decisions.reduce((all, decision) => all + Number(decision[name]), 0);
    expect([totals.hundredths, sum('shownHundredths')]).toEqual([550, 550]);
    expect(sum('shownTotalCents')).toBe(totals.totalCents);

    // Once work on the brakes has begun, the struts still cost what they carry of the package, to the rounding of its steps.
    await shop.sql(
      `insert into clock_entries (shop_id, id, technician_id, kind, work_order_id, started_at, ended_at, end_kind, recorded_by)
         select w.shop_id, gen_random_uuid(), $2, 'work', w.id, $3, $4, 'off', $2 from work_orders w where w.line_id = $1`,
      [first.id, shop.technician.staffId, shop.clock.now(), new Date(shop.clock.now().getTime() + 60_000)],
    );
    const carried = decisions.find(({ lineId }) => lineId === second.id)?.['shownHundredths'] as number;
    const left = await hours(second.id);
    expect(left).toBeLessThanOrEqual(carried);
    expect(carried - left).toBeLessThanOrEqual(4);
  });

  it('does warranty work without charge for the labour, and keeps its hours', async () => {
    const repairOrderId = await estimate.stay();
    const line = (await estimate.line(repairOrderId, 'brakes', { noCharge: 'warranty' })) as unknown as {
      id: string;
      version: number;
      revisionId: string;
    };
    const [draft] = await revisionsOf(repairOrderId);
    // 2.20 h stay; 284.90 are not charged. Parts 227.90, no labour and so no supplies, tax 7.25 % of them: 16.52.
    expect(draft.lines[0]).toMatchObject({
      noCharge: 'warranty',
      alone: {
        hundredths: 220,
        labourCents: 0,
        partsCents: 22_790,
        suppliesCents: 0,
        taxCents: 1652,
        discountCents: 28_490,
        totalCents: 24_442,
      },
    });
    const charged = await shop.frontDesk
      .patch(`/lines/${line.id}`, { noCharge: null }, line.version)
      .expect(200);
    expect(charged.body).toMatchObject({ noCharge: null, alone: { labourCents: 28_490, discountCents: 0 } });
    await shop.frontDesk.patch(`/lines/${line.id}`, { noCharge: 'comeback' }, line.version + 1).expect(200);
    const sent = await estimate.send(line.revisionId);
    const owner = await request(shop.url).get(`/api/v1/approval-links/${sent.token}`).expect(200);
    expect(owner.body.lines[0]).toMatchObject({ noCharge: 'comeback', alone: { labourCents: 0 } });
    expect((await request(shop.url).get(`/o/${sent.token}`).expect(200)).text).toContain(
      'doing this work again',
    );
  });

  it('takes something off a line, with the reason that the owner reads', async () => {
    const repairOrderId = await estimate.stay();
    const discount = { labourPpm: 100_000, itemsPpm: 50_000, reason: 'Tenth visit' };
    const line = await estimate.line(repairOrderId, 'brakes', { discount });
    const [draft] = await revisionsOf(repairOrderId);
    const figures = draft.lines[0].alone;
    // Labour 2.20 h at 116.55: 256.41. 5 % of 227.90 is 11.395: parts 216.50 or 216.51 as the items are rounded.
    expect(draft.lines[0].discount).toEqual({ ...discount, itemsCents: null });
    expect(figures.labourCents).toBe(25_641);
    expect([21_650, 21_651]).toContain(figures.partsCents);
    expect(figures.discountCents).toBe(28_490 + 22_790 - figures.labourCents - figures.partsCents);
    expect(figures.totalCents).toBe(
      figures.labourCents + figures.partsCents + figures.coreCents + figures.suppliesCents + figures.taxCents,
    );
    const none = await shop.frontDesk
      .patch(`/lines/${line.id}`, { discount: null }, line.version)
      .expect(200);
    expect(none.body).toMatchObject({ discount: null, alone: { totalCents: 54_765 } });
    const off = { itemsCents: 2000, reason: 'Scratched box' };
    const less = await shop.frontDesk.patch(`/lines/${line.id}`, { discount: off }, '*').expect(200);
    expect(less.body.alone).toMatchObject({ partsCents: 20_790, discountCents: 2000 });
    const sent = await estimate.send(line.revisionId);
    const page = await request(shop.url).get(`/o/${sent.token}`).expect(200);
    expect(page.text).toContain('Scratched box');
  });

  it('takes an amount off the order once, however the owner decides', async () => {
    const repairOrderId = await estimate.stay();
    const brakes = await estimate.line(repairOrderId, 'brakes');
    const hose = await estimate.line(repairOrderId, 'hose');
    const revisionId = brakes.revisionId;
    const path = `/revisions/${revisionId}/discount`;
    const whole = await pricesOf(revisionId, [brakes.id, hose.id]);
    const put = (body: object, version: number | string = '*') => shop.frontDesk.put(path, body, version);
    expect(pointers((await put({ cents: 5000, labourPpm: 100_000, reason: 'x' }).expect(422)).body)).toEqual([
      '/cents',
    ]);
    expect(pointers((await put({ cents: 5000 }).expect(422)).body)).toEqual(['/reason']);
    expect(pointers((await put({ itemsPpm: -1, reason: '' }).expect(422)).body)).toEqual([
      '/itemsPpm',
      '/reason',
    ]);
    await put({ cents: 5000, reason: 'Fleet' }, 1).expect(412);
    await shop.technician.put(path, { cents: 5000, reason: 'Fleet' }, '*').expect(403);
    const percent = await put({ labourPpm: 100_000, reason: 'Fleet' }, 2).expect(200);
    // 2.70 h at 116.55.
    expect(percent.body).toMatchObject({
      version: 3,
      orderDiscount: { labourPpm: 100_000, itemsPpm: null, cents: null, reason: 'Fleet' },
      totals: { labourCents: 31_469 },
    });
    expect((await put({}).expect(200)).body).toMatchObject({
      orderDiscount: null,
      totals: { labourCents: 34_965 },
    });
    const amount = await put({ cents: 5000, reason: 'Fleet' }).expect(200);
    const net = (figures: Record<string, number>): number =>
      (figures['labourCents'] ?? 0) + (figures['partsCents'] ?? 0);
    expect(net(amount.body.totals)).toBe(net(whole.totals) - 5000);
    expect(amount.body.totals.discountCents).toBe(5000);

    const sent = await estimate.send(revisionId);
    expect((await put({}).expect(409)).body.code).toBe('revision-already-sent');
    const owner = await request(shop.url).get(`/api/v1/approval-links/${sent.token}`).expect(200);
    expect(owner.body.orderDiscount).toMatchObject({ cents: 5000, reason: 'Fleet' });
    expect((await request(shop.url).get(`/o/${sent.token}`).expect(200)).text).toContain(
      '<b>Fleet</b>: $50.00 is taken off once',
    );
    const only = await decide(revisionId, [brakes.id], [brakes.id], sent.revision.shownSha256);
    expect(only.totals.discountCents).toBe(5000);
    expect(only.decisions[0]).toMatchObject({
      shownDiscountCents: 5000,
      shownTotalCents: only.totals.totalCents,
    });
    const both = await decide(revisionId, [brakes.id, hose.id], [hose.id], sent.revision.shownSha256);
    expect(both.totals.discountCents).toBe(5000);
    const sum = (name: string): number =>
      both.decisions.reduce((all, decision) => all + Number(decision[name]), 0);
    expect([sum('shownDiscountCents'), sum('shownTotalCents')]).toEqual([5000, both.totals.totalCents]);
  });

  it('charges supplies on labour and parts, and rounds all taxes once together, where the shop says so', async () => {
    await shop.sql(
      `insert into taxes (shop_id, id, name, rate_ppm, applies_to) values ($1, gen_random_uuid(), 'County tax', 12400, array['part'])`,
      [shop.shopId],
    );
    await shop.administrator
      .put('/shop/price-rules', { ...RULES, suppliesBase: 'labour-and-parts' }, '*')
      .expect(200);
    const repairOrderId = await estimate.stay();
    await estimate.line(repairOrderId, 'brakes');
    // Supplies 6 % of 284.90 + 227.90 = 30.768. Sales tax 7.25 % of 227.90 + 30.77 = 18.7536, county 1.24 % of 218.90 = 2.7144.
    const [apart] = await revisionsOf(repairOrderId);
    expect(apart.totals).toMatchObject({
      suppliesCents: 3077,
      taxCents: 1875 + 271,
      totalCents: 28_490 + 22_790 + 3077 + 2146,
    });
    await shop.administrator
      .put('/shop/price-rules', { ...RULES, suppliesBase: 'labour-and-parts', taxesCombined: true }, '*')
      .expect(200);
    // Together 21.4680.
    const [combined] = await revisionsOf(repairOrderId);
    expect(combined.totals).toMatchObject({ suppliesCents: 3077, taxCents: 2147 });
  });
});
