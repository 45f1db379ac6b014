import { ok } from '#libs/kernel';
import { readConfig } from '#server/platform/config';
import { UnitOfWork } from '#server/platform/database/unit-of-work';
import { QueueTasks, Reactions } from '#server/platform/queue/index';
import { runJobsNow } from '../support/jobs.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';

describe('background work in the server', () => {
  let shop: ShopUnderTest;
  beforeAll(async () => {
    shop = await shopUnderTest();
  });
  afterAll(() => shop.stop());

  it('follows a request without its use case knowing of it, as the shop of the request', async () => {
    const { app } = shop.server;
    const seen: unknown[] = [];
    app.get(Reactions).on(['bay'], (changes, tx) => {
      tx.enqueue('look-at-bays', { ...changes[0]?.subjects }, { key: 'shop' });
    });
    app.get(QueueTasks).add('look-at-bays', ({ ctx, payload }) =>
      app.get(UnitOfWork).run(ctx, async (tx) => {
        const [row] = await tx.rows<{ n: number }>('select count(*)::int as n from bays');
        seen.push([tx.shopId, tx.actor, payload, row?.n]);
        return ok(undefined);
      }),
    );
    const { body } = await shop.manager.post('/bays', { number: 1, name: 'Bay 1', kind: 'flat' }).expect(201);
    await shop.manager.post('/bays', { number: 1, name: 'Bay 1', kind: 'flat' }).expect(409);
    expect(seen).toEqual([]); // not before a spec says so
    const done = await runJobsNow(shop);
    expect(done.map(({ task }) => task)).toContain('look-at-bays');
    const actor = { kind: 'system', reason: 'job look-at-bays' };
    expect(seen).toEqual([[shop.shopId, actor, { bayId: (body as { id: string }).id }, 1]]);
  });

  it('may be left to another process, and the setting takes on and off only', () => {
    const read = (text?: string): boolean =>
      readConfig({ DATA_DIR: shop.dataDir, BACKGROUND_WORK: text }).backgroundWork;
    expect([read(), read('on'), read('off')]).toEqual([true, true, false]);
    expect(() => read('no')).toThrow('BACKGROUND_WORK must be on or off, got "no"');
  });
});
