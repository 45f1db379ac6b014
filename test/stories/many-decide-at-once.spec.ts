import request, { type Response } from 'supertest';
import { newId } from '#server/platform/ids';
import { EstimateBuilder } from '../builders/estimate.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

type Sent = Awaited<ReturnType<EstimateBuilder['sent']>>;
type Answer = 'approved' | 'declined' | 'deferred';

describe('many decide at once', () => {
  let shop: ShopUnderTest;
  let estimate: EstimateBuilder;
  beforeAll(async () => {
    shop = await shopUnderTest();
    estimate = await EstimateBuilder.withCatalogue(shop);
  });
  afterAll(async () => {
    await shop.stop();
  });

  const decide = async (
    sent: Sent,
    answers: [string, Answer][],
    expectedTotalCents: number,
  ): Promise<Response> =>
    request(shop.url)
      .post(`/api/v1/approval-links/${sent.token}/decisions`)
      .send({
        answers: answers.map(([lineId, answer]) => ({ lineId, answer })),
        shownSha256: sent.revision.shownSha256,
        expectedTotalCents,
        decidedBy: 'Ines Halloway',
      });
  /** Decides, and where the figures have moved meanwhile, agrees to those that the refusal names. */
  const decideAnyway = async (sent: Sent, answers: [string, Answer][]): Promise<Response> => {
    let total = 0;
    for (let attempt = 0; ; attempt += 1) {
      const answered = await decide(sent, answers, total);
      if (answered.status !== 409 || attempt === 40) return answered;
      total = answered.body.expectedTotalCents;
    }
  };
  const rows = (lineId: string) =>
    shop.sql<{ answer: string; total: number; sequence: number }>(
      'select answer, shown_total_cents as total, sequence from decisions where line_id = $1 order by sequence',
      [lineId],
    );
  const openWorkOrders = async (repairOrderId: string): Promise<string[]> =>
    (
      await shop.sql<{ line: string }>(
        'select line_id as line from work_orders where repair_order_id = $1 and withdrawn_at is null',
        [repairOrderId],
      )
    ).map(({ line }) => line);
  /** Everything that must hold whatever happened: sums, sequences, work orders. */
  const agree = async (sent: Sent): Promise<void> => {
    const { body } = await shop.frontDesk.get(`/repair-orders/${sent.repairOrderId}/estimate`).expect(200);
    const approved: string[] = [];
    let agreed = 0;
    for (const line of body.revisions[0].lines as {
      id: string;
      decision: { answer: string; shownTotalCents: number } | null;
    }[]) {
      const log = await rows(line.id);
      expect(log.map(({ sequence }) => sequence)).toEqual(log.map((_, at) => at + 1));
      if (line.decision?.answer !== 'approved') continue;
      approved.push(line.id);
      agreed += line.decision.shownTotalCents;
    }
    expect(body.authorisedCents).toBe(agreed);
    const price = await shop.frontDesk
      .post(`/revisions/${sent.revisionId}/prices`, { chosen: approved })
      .expect(200);
    expect(price.body.totals.totalCents).toBe(agreed);
    expect((await openWorkOrders(sent.repairOrderId)).sort()).toEqual(approved.sort());
  };

  it('twenty times the same: one decision a line, one work order, and nineteen harmless repeats', async () => {
    const sent = await estimate.sent('brakes', 'struts');
    const { brakes, struts } = sent.lines;
    const all = await Promise.all(
      Array.from({ length: 20 }, () =>
        decide(
          sent,
          [
            [brakes, 'approved'],
            [struts, 'declined'],
          ],
          54_765,
        ),
      ),
    );
    expect(all.map(({ status }) => status)).toEqual(Array.from({ length: 20 }, () => 200));
    expect(all.filter(({ body }) => !body.repeated)).toHaveLength(1);
    expect(await rows(brakes)).toHaveLength(1);
    expect(await rows(struts)).toHaveLength(1);
    await agree(sent);
  });

  it('twenty who disagree: every answer is recorded in some order or refused, and the last one counts', async () => {
    const sent = await estimate.sent('brakes', 'struts', 'hose');
    const { brakes, struts, hose } = sent.lines;
    const answers: Answer[] = ['approved', 'declined', 'deferred'];
    const all = await Promise.all(
      Array.from({ length: 20 }, (_, at) => {
        const one = [brakes, struts, hose][at % 3] ?? brakes;
        const other = [struts, hose, brakes][at % 3] ?? struts;
        return decideAnyway(sent, [
          [one, answers[at % 2] ?? 'approved'],
          [other, answers[(at + 1) % 3] ?? 'deferred'],
        ]);
      }),
    );
    expect(all.map(({ status }) => status)).toEqual(Array.from({ length: 20 }, () => 200));
    await agree(sent);
  });

  it('one key twenty times: one act, and every other gets the same answer or is asked to wait', async () => {
    const sent = await estimate.sent('hose');
    const key = `"${newId()}"`;
    const all = await Promise.all(
      Array.from({ length: 20 }, () =>
        request(shop.url)
          .post(`/api/v1/approval-links/${sent.token}/decisions`)
          .set('idempotency-key', key)
          .send({
            answers: [{ lineId: sent.lines.hose, answer: 'approved' }],
            shownSha256: sent.revision.shownSha256,
            expectedTotalCents: 24_322,
            decidedBy: 'Ines Halloway',
          }),
      ),
    );
    const done = all.filter(({ status }) => status === 200);
    expect(done.length).toBeGreaterThan(0);
    expect(new Set(done.map(({ body }) => JSON.stringify(body))).size).toBe(1);
    expect(
      all.filter(({ status }) => status !== 200).every(({ body }) => body.code === 'request-in-progress'),
    ).toBe(true);
    expect(await rows(sent.lines.hose)).toHaveLength(1);
  });

  it('a changed mind against a first clock-on: either the work is off the floor or the answer stands', async () => {
    for (let round = 0; round < 5; round += 1) {
      const sent = await estimate.sent('hose');
      await decide(sent, [[sent.lines.hose, 'approved']], 24_322);
      const [work] = await shop.sql<{ id: string }>('select id from work_orders where line_id = $1', [
        sent.lines.hose,
      ]);
      const [answered, clocked] = await Promise.all([
        decide(sent, [[sent.lines.hose, 'declined']], 0),
        clockOn(work?.id ?? ''),
      ]);
      const [row] = await shop.sql<{ begun: boolean }>(
        'select exists (select 1 from clock_entries where work_order_id = $1) as begun',
        [work?.id],
      );
      const begun = row?.begun ?? false;
      expect(clocked).toBe(begun);
      expect(answered.status).toBe(begun ? 409 : 200);
      expect(await openWorkOrders(sent.repairOrderId)).toHaveLength(begun ? 1 : 0);
      await agreeOrBegun(sent, begun);
    }
  });

  /** Clocks on the way the server does, holds apart: the work order is locked, looked at and written on. */
  async function clockOn(workOrderId: string): Promise<boolean> {
    const done = await shop.sql(
      `with held as (select shop_id, id from work_orders where id = $1 and withdrawn_at is null for update)
       insert into clock_entries (shop_id, id, technician_id, kind, work_order_id, started_at, ended_at, end_kind, recorded_by)
       select shop_id, $2, $3, 'work', id, $4::timestamptz, $4::timestamptz + interval '1 second', 'off', $3 from held returning id`,
      [
        workOrderId,
        newId(),
        shop.technician.staffId,
        new Date(shop.clock.now().getTime() + (clock += 1) * 1000),
      ],
    );
    return done.length === 1;
  }
  let clock = 0;

  async function agreeOrBegun(sent: Sent, begun: boolean): Promise<void> {
    const { body } = await shop.frontDesk.get(`/repair-orders/${sent.repairOrderId}/estimate`).expect(200);
    expect(body.authorisedCents).toBe(begun ? 24_322 : 0);
  }

  it('two revisions of one car: the step that both need is sold once, to whoever comes first', async () => {
    for (let round = 0; round < 4; round += 1) {
      const first = await estimate.sent('brakes');
      const second = { ...first, ...(await estimate.sentOn(first.repairOrderId, 'hose')) };
      const answers = await Promise.all([
        decide(first, [[first.lines.brakes, 'approved']], 54_765),
        decide(second, [[second.lines.hose, 'approved']], 24_322),
      ]);
      expect(answers.map(({ status }) => status).sort()).toEqual([200, 409]);
      const late = answers.find(({ status }) => status === 409);
      expect(late?.body.code).toBe('shown-has-changed');
      const isHose = answers[1].status === 409;
      const again = isHose
        ? await decide(second, [[second.lines.hose, 'approved']], late?.body.expectedTotalCents)
        : await decide(first, [[first.lines.brakes, 'approved']], late?.body.expectedTotalCents);
      expect(again.status).toBe(200);
      const books = await shop.sql<{ book: number }>(
        'select sum(book_hundredths)::int as book from work_orders where repair_order_id = $1',
        [first.repairOrderId],
      );
      // Wheels 0.80, pads 0.80, bleed 0.60, hose 0.50 h, in whatever order.
      expect(books[0]?.book).toBe(270);
    }
  });

  it('whoever tries link after link is asked to wait, page and API alike', async () => {
    for (const path of ['/api/v1/approval-links/', '/o/']) {
      const tried = await Promise.all(
        Array.from({ length: 310 }, (_, at) =>
          request(shop.url).get(`${path}${'A'.repeat(60)}${String(at).padStart(4, '0')}`),
        ),
      );
      const refused = tried.filter(({ status }) => status !== 404);
      expect(refused.map(({ status }) => status)).toEqual(Array.from({ length: 10 }, () => 429));
      expect(refused[0]?.body.code).toBe('too-many-requests');
      expect(refused[0]?.headers['retry-after']).toBeDefined();
    }
  });
});
