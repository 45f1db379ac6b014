import { ContingencyBuilder } from '../builders/contingency.js';
import { EstimateBuilder } from '../builders/estimate.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

interface Answer {
  readonly status: number;
  readonly body: Record<string, unknown>;
}

describe('many at once about one contingency', () => {
  let shop: ShopUnderTest;
  let builder: ContingencyBuilder;
  beforeAll(async () => {
    shop = await shopUnderTest();
    builder = new ContingencyBuilder(shop, await EstimateBuilder.withCatalogue(shop));
  }, 60_000);
  afterAll(async () => {
    await shop.stop();
  });

  const triggers = (id: string) =>
    shop.sql<{ total: number }>(
      'select total_cents as total from contingency_triggers where contingency_id = $1',
      [id],
    );

  it('of 30 who tell at the same moment that it happened one charges it, and 29 hear that it is charged', async () => {
    const work = await builder.underWay();
    const photoId = await builder.photo(work.nut.id);
    const answers: Answer[] = await Promise.all(
      Array.from({ length: 30 }, async (_, n) =>
        (n % 2 === 0 ? shop.technician : shop.frontDesk).post(`/contingencies/${work.nut.id}/trigger`, {
          reason: `Seized, told by ${n}`,
          photoId,
        }),
      ),
    );
    const codes = answers.map(({ status, body }) => (status === 200 ? 'charged' : body['code']));
    expect(codes.filter((code) => code === 'charged')).toHaveLength(1);
    expect(codes.filter((code) => code === 'contingency-triggered')).toHaveLength(29);
    expect(await triggers(work.nut.id)).toEqual([{ total: 13_686 }]);
    const [order] = await shop.sql('select book_hundredths as book from work_orders where id = $1', [
      work.workOrderId,
    ]);
    expect(order).toEqual({ book: 230 });
  }, 60_000);

  it('of a changed mind and a trigger at the same moment exactly one happens', async () => {
    const outcomes = new Set<string>();
    for (let round = 0; round < 12; round += 1) {
      const work = await builder.underWay();
      const photoId = await builder.photo(work.nut.id);
      const mind = { answers: [], contingencies: [{ contingencyId: work.nut.id, agreed: false }] };
      const changed = async (): Promise<Answer> => builder.answer(work, { ...mind, expectedTotalCents: 0 });
      const told = async (): Promise<Answer> =>
        shop.technician.post(`/contingencies/${work.nut.id}/trigger`, { reason: 'It seized.', photoId });
      // Who is sent first alternates, so that both orders come up.
      const [first, second] = await Promise.all(round % 2 === 0 ? [changed(), told()] : [told(), changed()]);
      const [answer, trigger] = round % 2 === 0 ? [first, second] : [second, first];
      const outcome = `${answer.status} ${trigger.status}`;
      expect(['200 409', '409 200']).toContain(outcome);
      expect((answer.status === 409 ? answer : trigger).body['code']).toBe(
        answer.status === 409 ? 'contingency-triggered' : 'contingency-not-agreed',
      );
      expect(await triggers(work.nut.id)).toHaveLength(trigger.status === 200 ? 1 : 0);
      outcomes.add(outcome);
    }
    expect(outcomes.size).toBeGreaterThan(0);
  }, 90_000);

  it('declining the line while its contingency is told leaves either all of it or nothing', async () => {
    for (let round = 0; round < 6; round += 1) {
      const hose = await builder.agreed();
      const photoId = await builder.photo(hose.nut.id);
      const declined = { answers: [{ lineId: hose.lineId, answer: 'declined' }], expectedTotalCents: 0 };
      const [answer, trigger]: Answer[] = await Promise.all([
        builder.answer(hose, declined),
        shop.frontDesk.post(`/contingencies/${hose.nut.id}/trigger`, { reason: 'It seized.', photoId }),
      ]);
      // Work has not begun, so the decline always goes through and nothing is ever charged.
      expect([answer?.status, trigger?.status]).toEqual([200, 409]);
      expect(await triggers(hose.nut.id)).toEqual([]);
    }
  }, 60_000);
});
