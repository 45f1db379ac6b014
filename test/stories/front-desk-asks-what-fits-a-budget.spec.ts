import { randomUUID } from 'node:crypto';
import request from 'supertest';
import { newId } from '#server/platform/ids';
import { FIRST_WEIGHTS } from '#libs/choice';
import { EstimateBuilder } from '../builders/estimate.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

interface Line {
  readonly id: string;
  readonly title: string;
  readonly benefit: { readonly benefit: number; readonly why: string };
  readonly mustInclude: boolean;
  readonly requires: string[];
  readonly excludes: string[];
}
interface Seen {
  readonly ids: readonly string[];
  readonly price: number;
  readonly benefit: number;
  readonly isSafe: boolean;
}

describe('the front desk asks what fits a budget', () => {
  let shop: ShopUnderTest;
  let estimate: EstimateBuilder;
  beforeAll(async () => {
    shop = await shopUnderTest();
    estimate = await EstimateBuilder.withCatalogue(shop);
  });
  afterAll(async () => {
    await shop.stop();
  });

  /** Seven lines that share wheels and bleeding, one of two hoses, an alignment that needs the struts. */
  async function sevenLines(): Promise<{ repairOrderId: string; revisionId: string; lines: Line[] }> {
    const repairOrderId = await estimate.stay();
    const add = async (over: object): Promise<Line> =>
      (await shop.frontDesk.post(`/repair-orders/${repairOrderId}/lines`, over).expect(201)).body as Line;
    const brakes = await estimate.line(repairOrderId, 'brakes', { stake: 'harm' });
    const struts = await estimate.line(repairOrderId, 'struts', { stake: 'comfort' });
    const hose = await estimate.line(repairOrderId, 'hose', { stake: 'stranded' });
    const used = await add({
      title: 'Used brake hose, front left',
      ...estimate.request('hose'),
      items: [
        {
          kind: 'part',
          name: 'Hose off a donor',
          condition: 'used',
          source: 'donor-vehicle',
          quantityHundredths: 100,
          unitPriceCents: 900,
        },
      ],
      excludes: [hose.id],
    });
    const geometry = await add({
      title: 'Wheel geometry report',
      enteredHundredths: 30,
      enteredSource: "shop's own time",
      stake: 'dearer-later',
      requires: [struts.id],
    });
    const oil = await add({
      title: 'Oil and filter',
      enteredHundredths: 47,
      enteredSource: "shop's own time",
      items: [{ kind: 'fluid', name: 'Oil, litre', quantityHundredths: 437, unitPriceCents: 1199 }],
    });
    const read = await shop.frontDesk.get(`/repair-orders/${repairOrderId}/estimate`).expect(200);
    const lines = read.body.revisions[0].lines as Line[];
    expect(lines.map(({ id }) => id)).toEqual(
      [brakes, struts, hose, used, geometry, oil].map(({ id }) => id),
    );
    return { repairOrderId, revisionId: brakes.revisionId, lines };
  }
  const priceOf = async (revisionId: string, chosen: readonly string[]): Promise<number> =>
    (await shop.frontDesk.post(`/revisions/${revisionId}/prices`, { chosen }).expect(200)).body.totals
      .totalCents;

  /** Every set that the words allow, priced by the server one by one. */
  async function everySet(
    revisionId: string,
    lines: readonly Line[],
    given: readonly string[] = [],
  ): Promise<Seen[]> {
    const open = lines.filter(({ id }) => !given.includes(id));
    const before = await priceOf(revisionId, given);
    const excludes = (a: Line, b: Line): boolean => a.excludes.includes(b.id) || b.excludes.includes(a.id);
    const seen: Seen[] = [];
    for (let bits = 0; bits < 2 ** open.length; bits += 1) {
      const chosen = open.filter((_, at) => (bits >> at) & 1);
      const all = lines.filter((line) => given.includes(line.id) || chosen.includes(line));
      const isAllowed = chosen.every(
        (line) =>
          line.requires.every((id) => all.some((other) => other.id === id)) &&
          !all.some((other) => excludes(line, other)),
      );
      if (!isAllowed) continue;
      const ids = all.map(({ id }) => id);
      seen.push({
        ids: chosen.map(({ id }) => id),
        price: (await priceOf(revisionId, ids)) - before,
        benefit: chosen.reduce((sum, { benefit }) => sum + benefit.benefit, 0),
        isSafe: lines.every((line) => !line.mustInclude || ids.includes(line.id)),
      });
    }
    return seen;
  }
  const bestOf = (seen: readonly Seen[], budget: number): Seen | undefined =>
    [...seen]
      .filter(({ price }) => price <= budget)
      .sort((a, b) => b.benefit - a.benefit || a.price - b.price)[0];
  const figuresOf = ({ priceCents, benefit }: { priceCents: number; benefit: number }) => ({
    price: priceCents,
    benefit,
  });
  const choices = (repairOrderId: string, body: object) =>
    shop.frontDesk.post(`/repair-orders/${repairOrderId}/choices`, body);

  it('is told the set that looking at every set finds, before and after something was agreed to', async () => {
    const { repairOrderId, revisionId, lines } = await sevenLines();
    const every = await everySet(revisionId, lines);
    const safe = every.filter(({ isSafe }) => isSafe);
    const all = Math.max(...every.map(({ price }) => price));
    for (const budget of [54_765, 70_000, 99_999, 160_000, all]) {
      const { body } = await choices(repairOrderId, { budgetCents: budget }).expect(200);
      const [set, other] = body.sets;
      expect(set.kind).toBe('drivable');
      const wanted = bestOf(safe, budget);
      expect({ ...figuresOf(set), proven: set.proven }).toEqual({
        price: wanted?.price,
        benefit: wanted?.benefit,
        proven: true,
      });
      expect(
        set.lines.reduce((sum: number, { totalCents }: { totalCents: number }) => sum + totalCents, 0),
      ).toBe(set.priceCents);
      expect([...set.chosen, ...set.leftOut].sort()).toEqual(lines.map(({ id }) => id).sort());
      if (other !== undefined) expect(figuresOf(other).benefit).toBe(bestOf(every, budget)?.benefit);
    }
    const drawn = await choices(repairOrderId, {}).expect(200);
    expect(drawn.body).toMatchObject({
      sets: [],
      currency: 'USD',
      given: [],
      givenCents: 0,
      leastSafeCents: Math.min(...safe.map(({ price }) => price)),
      ladder: { kind: 'drivable', proven: true },
    });
    for (const rung of drawn.body.ladder.rungs) {
      expect(figuresOf(rung).benefit).toBe(bestOf(safe, rung.priceCents)?.benefit);
      expect(bestOf(safe, rung.priceCents - 1)?.benefit ?? -1).toBeLessThan(rung.benefit);
    }
    expect(drawn.body.ladder.rungs.at(-1).priceCents).toBe(drawn.body.allCents);

    // The struts are agreed to: their price is outside the budget, their wheel is off already.
    const sent = await estimate.send(revisionId);
    const struts = lines[1]?.id ?? '';
    const strutsCents = await priceOf(revisionId, [struts]);
    const said = {
      shownSha256: sent.revision.shownSha256,
      decidedBy: 'Ines Halloway',
      channel: 'in-person',
    };
    await shop.frontDesk
      .post(`/revisions/${revisionId}/decisions`, {
        ...said,
        answers: [{ lineId: struts, answer: 'approved' }],
        expectedTotalCents: strutsCents,
      })
      .expect(200);
    const beside = await everySet(revisionId, lines, [struts]);
    const { body: after } = await choices(repairOrderId, { budgetCents: 60_000 }).expect(200);
    const best = bestOf(
      beside.filter(({ isSafe }) => isSafe),
      60_000,
    );
    expect(after).toMatchObject({ given: [struts], givenCents: strutsCents });
    expect(figuresOf(after.sets[0])).toEqual({ price: best?.price, benefit: best?.benefit });
    // What the set says it comes to is what deciding on it expects, to the cent.
    await shop.frontDesk
      .post(`/revisions/${revisionId}/decisions`, {
        ...said,
        answers: after.sets[0].chosen.map((lineId: string) => ({ lineId, answer: 'approved' })),
        expectedTotalCents: after.sets[0].totalCents,
      })
      .expect(200);

    // Work on the struts begins: what they cost is fixed, and the choice goes on beside it.
    await begin(struts);
    const { body: begun } = await choices(repairOrderId, { budgetCents: 500_000 }).expect(200);
    expect(begun.given).toEqual(expect.arrayContaining([struts, ...after.sets[0].chosen]));
    expect(begun.givenCents).toBeLessThan(after.sets[0].totalCents);
    expect(begun.sets[0].leftOut).not.toContain(struts);
  });

  async function begin(lineId: string): Promise<void> {
    const [work] = await shop.sql<{ id: string }>('select id from work_orders where line_id = $1', [lineId]);
    await shop.sql(
      `insert into clock_entries (shop_id, id, technician_id, kind, work_order_id, started_at, ended_at, end_kind, recorded_by)
       values ($1, $2, $3, 'work', $4, $5, $6, 'off', $3)`,
      [
        shop.shopId,
        newId(),
        shop.technician.staffId,
        work?.id,
        shop.clock.now(),
        new Date(shop.clock.now().getTime() + 60_000),
      ],
    );
  }

  it('hears what it would take when the money does not make the car safe', async () => {
    const { repairOrderId } = await sevenLines();
    const { body } = await choices(repairOrderId, { budgetCents: 54_764 }).expect(200);
    expect(body.leastSafeCents).toBe(54_765);
    expect(body.sets.map(({ kind }: { kind: string }) => kind)).toEqual(['not-to-be-driven']);
    const brakes = body.sets[0].leftOut[0];
    expect(body.sets[0].chosen).not.toContain(brakes);
    const parked = await choices(repairOrderId, { budgetCents: 54_764, notToBeDriven: true }).expect(200);
    expect(parked.body.ladder).toMatchObject({ kind: 'not-to-be-driven' });
    expect(parked.body.ladder.rungs[0]).toMatchObject({ priceCents: 0, chosen: [] });
  });

  it('sees the price beside the value of the vehicle', async () => {
    const { repairOrderId } = await sevenLines();
    await shop.sql(
      'update vehicles set value_cents = 219060 where id = (select vehicle_id from repair_orders where id = $1)',
      [repairOrderId],
    );
    const { body } = await choices(repairOrderId, { budgetCents: 54_765 }).expect(200);
    expect(body.vehicleValueCents).toBe(219_060);
    expect(body.sets[0]).toMatchObject({ priceCents: 54_765, ratioOfValuePpm: 250_000 });
    expect(body.ladder.rungs[0].ratioOfValuePpm).toBe(250_000);
  });

  it('weighs as the manager says, and what was sent keeps what it was sent with', async () => {
    const weights = await shop.frontDesk.get('/shop/benefit-weights').expect(200);
    expect(weights.body).toMatchObject(FIRST_WEIGHTS);
    const { version } = weights.body as { version: number };
    expect(weights.headers['etag']).toBe(`"${version}"`);
    const first = await sevenLines();
    const comfortable = {
      ...FIRST_WEIGHTS,
      repair: 900,
      toTheShopOnly: 1,
      consequence: { ...FIRST_WEIGHTS.consequence, stranded: 0, comfort: 400 },
    };
    const put = (body: object, at: number | string) =>
      shop.administrator.put('/shop/benefit-weights', body, at);
    const budget = { budgetCents: 130_000 };
    const before = await choices(first.repairOrderId, budget).expect(200);
    const sent = await estimate.send(first.revisionId);

    expect((await put(comfortable, version).expect(200)).body).toEqual({
      ...comfortable,
      version: version + 1,
    });
    expect((await shop.frontDesk.get('/shop/benefit-weights')).body).toMatchObject(comfortable);
    const afterSent = await choices(first.repairOrderId, budget).expect(200);
    expect(afterSent.body.sets).toEqual(before.body.sets);
    const read = await shop.frontDesk.get(`/repair-orders/${first.repairOrderId}/estimate`).expect(200);
    expect(read.body.revisions[0].lines.map(({ benefit }: Line) => benefit)).toEqual(
      first.lines.map(({ benefit }) => benefit),
    );
    expect(read.body.revisions[0].shownSha256).toBe(sent.revision.shownSha256);
    const draft = await sevenLines();
    const now = await choices(draft.repairOrderId, budget).expect(200);
    const titles = (body: { sets: { lines: { title: string }[] }[] }) =>
      body.sets[0]?.lines.map(({ title }) => title);
    expect(titles(now.body)).not.toEqual(titles(before.body));
    expect(draft.lines[1]?.benefit).toEqual({
      benefit: 1300,
      why: 'This is worn out, and the car may still be driven; waiting costs comfort. This shop weighs it 900 + 400 = 1300.',
    });

    await put(FIRST_WEIGHTS, version).expect(412);
    await shop.manager.put('/shop/benefit-weights', FIRST_WEIGHTS, version + 1).expect(403);
    const wrong = await put(
      { ...FIRST_WEIGHTS, unsafe: 1.5, watch: -1, consequence: { harm: 1 } },
      version + 1,
    ).expect(422);
    expect(wrong.body.fields.map(({ pointer }: { pointer: string }) => pointer)).toEqual(
      expect.arrayContaining(['/unsafe', '/watch', '/consequence/comfort']),
    );
    await put(FIRST_WEIGHTS, version + 1).expect(200);
  });

  it('says what a line requires and excludes, as long as every line can still be done', async () => {
    const { repairOrderId, revisionId, lines } = await sevenLines();
    const [brakes, struts, hose, used, geometry] = lines.map(({ id }) => id);
    const version = async (): Promise<number> =>
      (await shop.frontDesk.get(`/repair-orders/${repairOrderId}/estimate`)).body.revisions[0].version;
    const change = async (lineId: string | undefined, body: object) =>
      shop.frontDesk.patch(`/lines/${lineId}`, body, await version());
    // The struts need the geometry, which needs the struts: they come together, and that is fine.
    const circle = await change(struts, { requires: [geometry] });
    expect([circle.status, circle.body.requires]).toEqual([200, [geometry]]);
    const kept = await change(struts, { title: 'Struts' });
    expect(kept.body.requires).toEqual([geometry]);
    for (const [body, pointer, code] of [
      [{ requires: [struts] }, '/requires', 'request-invalid'],
      [{ excludes: [struts] }, '/excludes', 'request-invalid'],
      [{ excludes: [geometry] }, '/excludes', 'request-invalid'],
      [{ requires: [hose, used] }, '/requires', 'request-invalid'],
      [{ requires: [brakes, randomUUID()] }, '/requires/1', 'line-not-in-revision'],
      [{ requires: 'all' }, '/requires', 'request-invalid'],
      [{ stake: 'much' }, '/stake', 'request-invalid'],
    ] as const) {
      const refused = await change(struts, body);
      expect([body, refused.status, refused.body.code, refused.body.fields?.[0]?.pointer]).toEqual([
        body,
        422,
        code,
        pointer,
      ]);
    }
    const other = await estimate.line(await estimate.stay(), 'hose');
    expect((await change(struts, { requires: [other.id] })).body.code).toBe('line-not-in-revision');
    // The geometry goes, and with it what was said about it.
    await shop.frontDesk
      .delete(`/lines/${geometry}`, undefined, { 'if-match': `"${await version()}"` })
      .expect(204);
    const [left] = (await shop.frontDesk.get(`/repair-orders/${repairOrderId}/estimate`)).body.revisions;
    expect(left.lines[1].requires).toEqual([]);

    await estimate.send(revisionId);
    await expect(shop.sql('delete from line_relations where line_id = $1', [used])).rejects.toThrow(
      'a sent revision stays as it was',
    );
    await expect(
      shop.sql(
        `insert into line_relations (shop_id, line_id, other_line_id, revision_id, kind) values ($1, $2, $3, $4, 'excludes')`,
        [shop.shopId, brakes, struts, revisionId],
      ),
    ).rejects.toThrow('a sent revision stays as it was');
    const foreign = await estimate.line(await estimate.stay(), 'brakes');
    await expect(
      shop.sql(
        `insert into line_relations (shop_id, line_id, other_line_id, revision_id, kind) values ($1, $2, $3, $4, 'requires')`,
        [shop.shopId, foreign.id, other.id, foreign.revisionId],
      ),
    ).rejects.toThrow('line_relations_other');
  });

  it('takes the stake of the worst finding where the line says none', async () => {
    const repairOrderId = await estimate.stay();
    const found = await shop.technician
      .post(`/repair-orders/${repairOrderId}/findings`, {
        title: 'Belt frayed',
        verdict: 'repair',
        mayDrive: 'yes',
        explanation: 'The belt shows its cords.',
        consequence: 'It may leave you by the road.',
        stake: 'comfort',
      })
      .expect(201);
    expect(found.body.stake).toBe('comfort');
    const { id, version } = found.body as { id: string; version: number };
    const changed = await shop.technician
      .patch(`/findings/${id}`, { stake: 'stranded' }, version)
      .expect(200);
    expect(changed.body.stake).toBe('stranded');
    await shop.technician.patch(`/findings/${id}`, { stake: 'awful' }, version + 1).expect(422);
    const line = await shop.frontDesk
      .post(`/repair-orders/${repairOrderId}/lines`, estimate.request('hose', { findingIds: [id] }))
      .expect(201);
    expect(line.body).toMatchObject({ stake: null, benefit: { benefit: 300 }, mustInclude: false });
    const own = await shop.frontDesk
      .patch(`/lines/${line.body.id}`, { stake: 'none' }, line.body.version)
      .expect(200);
    expect(own.body).toMatchObject({ stake: 'none', benefit: { benefit: 150 } });
  });

  it('is refused what it may not ask, and told what is wrong with the question', async () => {
    const { repairOrderId, revisionId } = await sevenLines();
    await shop.technician.post(`/repair-orders/${repairOrderId}/choices`, {}).expect(403);
    await choices(newId(), {}).expect(404);
    await choices(await estimate.stay(), {}).expect(404);
    const elsewhere = await estimate.line(await estimate.stay(), 'hose');
    const foreign = await choices(repairOrderId, { revisionId: elsewhere.revisionId }).expect(404);
    expect(foreign.body.fields[0].pointer).toBe('/revisionId');
    const other = await shop.addShop('other-yard');
    const stranger = await other.person('front-desk');
    await stranger.post(`/repair-orders/${repairOrderId}/choices`, {}).expect(404);
    await choices(repairOrderId, { revisionId }).expect(200);
    // The owner asks the same by the link, of the revision that it opens.
    const { token } = await estimate.send(revisionId);
    const byLink = (to: string, body: object) =>
      request(shop.url).post(`/api/v1/approval-links/${to}/choices`).send(body);
    const mine = await byLink(token, { budgetCents: 60_000 }).expect(200);
    expect(mine.body).toEqual((await choices(repairOrderId, { budgetCents: 60_000 }).expect(200)).body);
    await byLink(`${token.slice(0, -4)}AAAA`, {}).expect(404);
    await byLink(token, { budgetCents: 'much' }).expect(422);
    for (const body of [
      { budgetCents: -1 },
      { budgetCents: 1.5 },
      { budgetCents: '80' },
      { notToBeDriven: 'yes' },
    ])
      expect([body, (await choices(repairOrderId, body)).status]).toEqual([body, 422]);
  });
});
