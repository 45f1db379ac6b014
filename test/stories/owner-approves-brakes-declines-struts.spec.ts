import request, { type Test } from 'supertest';
import { newId } from '#server/platform/ids';
import { EstimateBuilder } from '../builders/estimate.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

type Answer = 'approved' | 'declined' | 'deferred';
interface Sent {
  readonly repairOrderId: string;
  readonly token: string;
  readonly revisionId: string;
  readonly revision: { readonly shownSha256: string };
}

describe('the owner approves brakes and declines struts', () => {
  let shop: ShopUnderTest;
  let estimate: EstimateBuilder;
  beforeAll(async () => {
    shop = await shopUnderTest();
    estimate = await EstimateBuilder.withCatalogue(shop);
  });
  afterAll(async () => {
    await shop.stop();
  });
  beforeEach(() => shop.clock.passMinutes(10));

  const link = (token: string, rest = ''): string => `/api/v1/approval-links/${token}${rest}`;
  const seen = (token: string): Test => request(shop.url).get(link(token));
  const body = (from: Sent, answers: [string, Answer][], total: number, over: object = {}): object => ({
    answers: answers.map(([lineId, answer]) => ({ lineId, answer })),
    shownSha256: from.revision.shownSha256,
    expectedTotalCents: total,
    decidedBy: 'Ines Halloway',
    ...over,
  });
  const decide = (from: Sent, answers: [string, Answer][], total: number, over: object = {}): Test =>
    request(shop.url)
      .post(link(from.token, '/decisions'))
      .send(body(from, answers, total, over));
  const priceOf = async (from: Sent, chosen: string[]): Promise<number> =>
    (await request(shop.url).post(link(from.token, '/prices')).send({ chosen }).expect(200)).body.totals
      .totalCents;
  const rows = async (lineId: string): Promise<[number, string, number][]> =>
    (
      await shop.sql<{ sequence: number; answer: string; total: number }>(
        'select sequence, answer, shown_total_cents as total from decisions where line_id = $1 order by sequence',
        [lineId],
      )
    ).map(({ sequence, answer, total }) => [sequence, answer, total]);
  const workOrders = (lineId: string) =>
    shop.sql<{ id: string; book: number; withdrawn: boolean }>(
      `select w.id, w.book_hundredths as book, w.withdrawn_at is not null as withdrawn from work_orders w where w.line_id = $1 order by w.number`,
      [lineId],
    );
  /** Somebody clocks on to the line's work order; past the holds, which are another story. */
  const begin = async (lineId: string): Promise<void> => {
    const [work] = await workOrders(lineId);
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
  };
  const authorised = async (from: Sent): Promise<number> =>
    (await shop.frontDesk.get(`/repair-orders/${from.repairOrderId}/estimate`)).body.authorisedCents;

  it('reads what is shown without leaving a trace, and sees every figure', async () => {
    const sent = await estimate.sent('brakes', 'struts');
    const first = await seen(sent.token).expect(200);
    expect(first.headers['cache-control']).toBe('no-store');
    expect((await seen(sent.token)).body).toEqual(first.body);
    expect(first.body).toMatchObject({
      shopName: 'Kestrel Yard',
      shopPhone: '+12025550100',
      vehicle: 'Corvane Tessel',
      shownSha256: sent.revision.shownSha256,
      approvedCents: 0,
      authorisedCents: 0,
      lines: [
        { verdict: 'Unsafe', alone: { totalCents: 54_765 }, decision: null, workBegun: false },
        { verdict: 'Repair', alone: { totalCents: 97_016 }, decision: null },
      ],
    });
    expect(first.body.notice).toMatch(/Nothing is charged .* local law/);
    const [stored] = await shop.sql('select first_opened_at from approval_links where revision_id = $1', [
      sent.revisionId,
    ]);
    expect(stored).toEqual({ first_opened_at: null });
  });

  it('is recorded once, at what was shown, with its evidence, and the work order is there at once', async () => {
    const sent = await estimate.sent('brakes', 'struts');
    const { brakes, struts } = sent.lines;
    const answered = await decide(
      sent,
      [
        [brakes, 'approved'],
        [struts, 'declined'],
      ],
      54_765,
    )
      .set('user-agent', 'pocket phone')
      .expect(200);
    expect(answered.body).toMatchObject({ repeated: false, approvedCents: 54_765, authorisedCents: 54_765 });
    expect(await rows(brakes)).toEqual([[1, 'approved', 54_765]]);
    // Declined: what it would have cost alone.
    expect(await rows(struts)).toEqual([[1, 'declined', 97_016]]);
    expect(await workOrders(brakes)).toMatchObject([{ book: 220, withdrawn: false }]);
    expect(await workOrders(struts)).toEqual([]);
    const log = await shop.frontDesk.get(`/repair-orders/${sent.repairOrderId}/decisions`).expect(200);
    expect(log.body).toMatchObject({
      authorisedCents: 54_765,
      items: [
        {
          answer: 'approved',
          title: 'Front brake pads and discs',
          shownLabourCents: 28_490,
          shownPartsCents: 22_790,
          shownSha256: sent.revision.shownSha256,
          channel: 'link',
          decidedBy: 'Ines Halloway',
          decidedAt: shop.clock.now().toISOString(),
          counts: true,
          evidence: {
            address: '127.0.0.1',
            userAgent: 'pocket phone',
            wording: 'api/1',
            authorisedBeforeCents: 0,
            authorisedAfterCents: 54_765,
          },
        },
        { answer: 'declined', shownTotalCents: 97_016 },
      ],
    });
    expect(await authorised(sent)).toBe(54_765);
  });

  it('may be sent again as often as one likes, with or without a key', async () => {
    const sent = await estimate.sent('brakes', 'struts');
    const { brakes, struts } = sent.lines;
    const answers: [string, Answer][] = [
      [brakes, 'approved'],
      [struts, 'deferred'],
    ];
    const first = await decide(sent, answers, 54_765).set('idempotency-key', '"once"').expect(200);
    const replay = await decide(sent, answers, 54_765).set('idempotency-key', '"once"').expect(200);
    expect(replay.body).toEqual(first.body);
    expect(replay.headers['idempotent-replayed']).toBe('true');
    const other = await decide(sent, [[brakes, 'declined']], 0)
      .set('idempotency-key', '"once"')
      .expect(422);
    expect(other.body.code).toBe('idempotency-key-reused');
    const again = await decide(sent, answers, 54_765).expect(200);
    expect(again.body).toEqual({ ...first.body, repeated: true });
    await begin(brakes);
    expect((await decide(sent, answers, 54_765).expect(200)).body.repeated).toBe(true);
    expect(await rows(brakes)).toHaveLength(1);
    expect(await rows(struts)).toHaveLength(1);
    expect(await workOrders(brakes)).toHaveLength(1);
  });

  it('may answer in parts; a further yes agrees anew on the share of what is done together', async () => {
    const sent = await estimate.sent('brakes', 'struts', 'hose');
    const { brakes, struts, hose } = sent.lines;
    await decide(sent, [[brakes, 'approved']], 54_765).expect(200);
    // The hose shares a wheel and the bleeding: by hand in the story of the front desk, 653.04 together.
    const both = await priceOf(sent, [brakes, hose]);
    expect(both).toBe(65_304);
    const second = await decide(sent, [[hose, 'approved']], both).expect(200);
    expect(second.body).toMatchObject({ approvedCents: 65_304, authorisedCents: 65_304 });
    const [first, anew] = await rows(brakes);
    expect([first?.[2], anew?.[0], anew?.[1]]).toEqual([54_765, 2, 'approved']);
    expect((anew?.[2] ?? 0) + ((await rows(hose))[0]?.[2] ?? 0)).toBe(65_304);
    expect(await rows(struts)).toEqual([]);
    const books = [...(await workOrders(brakes)), ...(await workOrders(hose))];
    expect(books.reduce((sum, { book }) => sum + book, 0)).toBe(270);
    const log = await shop.frontDesk.get(`/repair-orders/${sent.repairOrderId}/decisions`);
    expect(
      log.body.items.map((one: { counts: boolean; evidence: { because: string } }) => [
        one.counts,
        one.evidence.because,
      ]),
    ).toEqual([
      [false, 'answered'],
      [true, 'choice-changed'],
      [true, 'answered'],
    ]);
  });

  it('may change a mind until work has begun, and then only by calling', async () => {
    const sent = await estimate.sent('brakes', 'struts');
    const { brakes, struts } = sent.lines;
    await decide(
      sent,
      [
        [brakes, 'approved'],
        [struts, 'approved'],
      ],
      await priceOf(sent, [brakes, struts]),
    ).expect(200);
    await decide(sent, [[struts, 'declined']], 54_765).expect(200);
    expect(await workOrders(struts)).toMatchObject([{ withdrawn: true }]);
    expect((await rows(brakes)).at(-1)).toEqual([2, 'approved', 54_765]);
    await decide(sent, [[struts, 'approved']], await priceOf(sent, [brakes, struts])).expect(200);
    expect((await workOrders(struts)).map(({ withdrawn }) => withdrawn)).toEqual([true, false]);
    const agreed = await authorised(sent);

    await begin(brakes);
    const late = await decide(
      sent,
      [
        [brakes, 'declined'],
        [struts, 'declined'],
      ],
      0,
    ).expect(409);
    expect(late.body).toMatchObject({
      code: 'work-already-begun',
      lines: [{ lineId: brakes, title: 'Front brake pads and discs' }],
    });
    expect(await authorised(sent)).toBe(agreed);
    expect((await rows(struts)).at(-1)?.[1]).toBe('approved');
    const brakesAgreed = (await rows(brakes)).at(-1);
    await decide(sent, [[struts, 'declined']], 0).expect(200);
    // What has begun keeps its share; nobody is charged more for another's change of mind.
    expect((await rows(brakes)).at(-1)).toEqual(brakesAgreed);
    expect(await authorised(sent)).toBe(brakesAgreed?.[2]);
    const view = await seen(sent.token).expect(200);
    expect(view.body.lines.map((line: { workBegun: boolean }) => line.workBegun)).toEqual([true, false]);
    // The struts again cost what is left of the shared wheels, and their own work.
    const left = await priceOf(sent, [struts]);
    await decide(sent, [[struts, 'approved']], left).expect(200);
    expect(await authorised(sent)).toBe((brakesAgreed?.[2] ?? 0) + left);
  });

  it('is refused with the right figures when those that were shown are not those of now', async () => {
    const sent = await estimate.sent('brakes', 'struts');
    const { brakes, struts } = sent.lines;
    const cheap = await decide(sent, [[brakes, 'approved']], 100).expect(409);
    expect(cheap.body).toMatchObject({
      code: 'shown-has-changed',
      expectedTotalCents: 54_765,
      shownSha256: sent.revision.shownSha256,
      chosen: [brakes],
      lines: [{ lineId: brakes, totalCents: 54_765 }],
    });
    const forged = await decide(sent, [[brakes, 'approved']], 54_765, { shownSha256: 'a'.repeat(64) }).expect(
      409,
    );
    expect(forged.body.code).toBe('shown-has-changed');
    expect(await rows(brakes)).toEqual([]);
    // Two browsers: the second did not know of the first one's yes.
    await decide(sent, [[brakes, 'approved']], 54_765).expect(200);
    const blind = await decide(sent, [[struts, 'approved']], 97_016).expect(409);
    await decide(sent, [[struts, 'approved']], blind.body.expectedTotalCents).expect(200);
    expect(await authorised(sent)).toBe(blind.body.expectedTotalCents);
  });

  it('is told which field does not fit', async () => {
    const sent = await estimate.sent('brakes', 'struts');
    const other = await estimate.sent('hose');
    const { brakes, struts } = sent.lines;
    const pointers = (answer: { body: { fields: { pointer: string }[] } }): string[] =>
      answer.body.fields.map(({ pointer }) => pointer).sort();
    expect(
      pointers(
        await request(shop.url)
          .post(link(sent.token, '/decisions'))
          .send({ answers: [{ lineId: 'x' }] })
          .expect(422),
      ),
    ).toEqual([
      '/answers/0/answer',
      '/answers/0/lineId',
      '/decidedBy',
      '/expectedTotalCents',
      '/shownSha256',
    ]);
    expect(pointers(await decide(sent, [], 0).expect(422))).toEqual(['/answers']);
    const stray = await decide(sent, [[other.lines.hose, 'approved']], 24_322).expect(422);
    expect([stray.body.code, pointers(stray)]).toEqual(['line-not-in-revision', ['/answers/0/lineId']]);
    expect(
      pointers(
        await decide(
          sent,
          [
            [brakes, 'approved'],
            [brakes, 'declined'],
          ],
          0,
        ).expect(422),
      ),
    ).toEqual(['/answers/1/lineId']);
    const day = { answers: [{ lineId: struts, answer: 'declined', lookAgainOn: '2026-09-01' }] };
    expect(pointers(await decide(sent, [], 0, day).expect(422))).toEqual(['/answers/0/lookAgainOn']);
    await request(shop.url)
      .post(link(sent.token, '/prices'))
      .send({ chosen: [other.lines.hose] })
      .expect(422);
    await request(shop.url)
      .post(link(sent.token, '/decisions'))
      .set('content-type', 'application/json')
      .send('{')
      .expect(400);
  });

  it('finds a link that expired or was withdrawn closed, with whom to call, and any other not there', async () => {
    const sent = await estimate.sent('brakes');
    const { brakes } = sent.lines;
    await request(shop.url)
      .get(link('A'.repeat(64)))
      .expect(404);
    await request(shop.url)
      .get(link(`${sent.token.slice(0, 60)}AAAA`))
      .expect(404);
    await request(shop.url).get(link('short')).expect(404);
    const revoked = await shop.frontDesk.post(`/revisions/${sent.revisionId}/links`).expect(201);
    const token = revoked.body.url.split('/o/')[1] as string;
    await shop.frontDesk.delete(`/links/${revoked.body.id}`).expect(204);
    const gone = await seen(token).expect(410);
    expect(gone.body).toMatchObject({
      code: 'link-revoked',
      shopName: 'Kestrel Yard',
      shopPhone: '+12025550100',
    });
    await decide({ ...sent, token }, [[brakes, 'approved']], 54_765).expect(410);
    await seen(sent.token).expect(200);
    shop.clock.passMinutes(7 * 24 * 60);
    expect((await seen(sent.token).expect(410)).body.code).toBe('link-expired');
    await request(shop.url).post(link(sent.token, '/prices')).send({ chosen: [] }).expect(410);
    expect((await decide(sent, [[brakes, 'approved']], 54_765).expect(410)).body.detail).toContain(
      '+12025550100',
    );
    expect(await rows(brakes)).toEqual([]);
  });

  it('puts work that turns up under way into a further revision; what was agreed before stands', async () => {
    const sent = await estimate.sent('brakes', 'struts');
    const { brakes, struts } = sent.lines;
    const before = await priceOf(sent, [brakes, struts]);
    await decide(
      sent,
      [
        [brakes, 'approved'],
        [struts, 'approved'],
      ],
      before,
    ).expect(200);
    await begin(brakes);
    const second = {
      repairOrderId: sent.repairOrderId,
      ...(await estimate.sentOn(sent.repairOrderId, 'hose')),
    };
    // Wheel and bleeding are paid for: the hose is 0.50 h = 64.75 and 34.00; supplies are at their cap of 35.00 already.
    const view = await seen(second.token).expect(200);
    expect(view.body).toMatchObject({
      revisionNumber: 2,
      authorisedCents: before,
      lines: [
        { alone: { hundredths: 50, labourCents: 6475, suppliesCents: 0, taxCents: 247, totalCents: 10_122 } },
      ],
    });
    await decide(second, [[second.lines.hose, 'approved']], 10_122).expect(200);
    expect(await authorised(sent)).toBe(before + 10_122);
    const whole = await shop.frontDesk.get(`/repair-orders/${sent.repairOrderId}/estimate`).expect(200);
    expect(whole.body.revisions.map((one: { approvedCents: number }) => one.approvedCents)).toEqual([
      before,
      10_122,
    ]);
    // The first link shows what it showed, and the same answers to it change nothing.
    expect(
      (
        await decide(
          sent,
          [
            [brakes, 'approved'],
            [struts, 'approved'],
          ],
          before,
        ).expect(200)
      ).body.repeated,
    ).toBe(true);
    expect(await authorised(sent)).toBe(before + 10_122);
  });

  it('says it by phone: who, which number, who wrote it down, and the totals before and after', async () => {
    const sent = await estimate.sent('brakes', 'struts');
    const { brakes, struts } = sent.lines;
    const spoken = (answers: [string, Answer][], total: number, over: object) =>
      shop.frontDesk.post(`/revisions/${sent.revisionId}/decisions`, body(sent, answers, total, over));
    const noNumber = await spoken([[brakes, 'approved']], 54_765, { channel: 'phone' }).expect(422);
    expect(noNumber.body.fields[0].pointer).toBe('/numberCalled');
    await shop.technician
      .post(
        `/revisions/${sent.revisionId}/decisions`,
        body(sent, [[brakes, 'approved']], 54_765, { channel: 'in-person' }),
      )
      .expect(403);
    await spoken([[brakes, 'approved']], 54_765, {
      channel: 'phone',
      numberCalled: '+1 202 555 0111',
      note: 'at work until four \ud83d',
    }).expect(200);
    await spoken([[struts, 'deferred']], 54_765, {
      channel: 'in-person',
      answers: [{ lineId: struts, answer: 'deferred', lookAgainOn: '2026-09-01' }],
    }).expect(200);
    const log = await shop.frontDesk.get(`/repair-orders/${sent.repairOrderId}/decisions`).expect(200);
    expect(log.body.items).toMatchObject([
      {
        channel: 'phone',
        recordedBy: 'Wenna',
        linkId: null,
        evidence: {
          numberCalled: '+1 202 555 0111',
          note: 'at work until four \ufffd',
          authorisedBeforeCents: 0,
          authorisedAfterCents: 54_765,
        },
      },
      { channel: 'in-person', answer: 'deferred', lookAgainOn: '2026-09-01' },
    ]);
    const draft = await estimate.line(sent.repairOrderId, 'hose');
    const unsent = await shop.frontDesk
      .post(
        `/revisions/${draft.revisionId}/decisions`,
        body(sent, [[draft.id, 'approved']], 1, { channel: 'in-person' }),
      )
      .expect(409);
    expect(unsent.body.code).toBe('revision-not-sent');
    await shop.frontDesk
      .post(
        `/revisions/${newId()}/decisions`,
        body(sent, [[brakes, 'approved']], 1, { channel: 'in-person' }),
      )
      .expect(404);
    await shop.frontDesk.get(`/repair-orders/${newId()}/decisions`).expect(404);
  });

  it('cannot answer any more once the car was picked up, but still reads', async () => {
    const sent = await estimate.sent('brakes', 'struts');
    const { brakes, struts } = sent.lines;
    await decide(sent, [[brakes, 'declined']], 0).expect(200);
    await shop.sql('update repair_orders set picked_up_at = $2, odometer_out = odometer_in where id = $1', [
      sent.repairOrderId,
      shop.clock.now(),
    ]);
    expect((await decide(sent, [[struts, 'approved']], 97_016).expect(409)).body.code).toBe(
      'repair-order-closed',
    );
    expect((await decide(sent, [[brakes, 'declined']], 0).expect(200)).body.repeated).toBe(true);
    await seen(sent.token).expect(200);
  });
});
