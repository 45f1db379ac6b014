import type { Browser, BrowserContext, Page } from 'playwright-core';
import { ContingencyBuilder, NUT, SCREW, type SentHose } from '../builders/contingency.js';
import { EstimateBuilder } from '../builders/estimate.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';
import { accessibilityFaults, openBrowser, shoot, sidewaysScroll } from './browser.js';

describe('the owner is asked what may happen', () => {
  let shop: ShopUnderTest;
  let builder: ContingencyBuilder;
  let browser: Browser;
  let context: BrowserContext | undefined;
  beforeAll(async () => {
    shop = await shopUnderTest();
    builder = new ContingencyBuilder(shop, await EstimateBuilder.withCatalogue(shop));
    browser = await openBrowser();
  }, 120_000);
  afterAll(async () => {
    await browser.close();
    await shop.stop();
  });
  afterEach(async () => {
    await context?.close();
    context = undefined;
  });

  /** A phone; scripts only where axe needs them. */
  async function open(
    token: string,
    o: { dim?: boolean; scripts?: boolean; query?: string } = {},
  ): Promise<Page> {
    await context?.close();
    context = await browser.newContext({
      viewport: { width: 390, height: 844 },
      javaScriptEnabled: o.scripts ?? false,
      colorScheme: o.dim ? 'dark' : 'light',
      hasTouch: true,
    });
    const page = await context.newPage();
    await page.goto(`${shop.url}/o/${token}${o.query ?? ''}`);
    return page;
  }
  const box = (page: Page, cap: string) =>
    page.getByRole('checkbox', { name: `Go ahead if it happens, up to ${cap}` });
  const yes = (page: Page) => page.getByRole('radio', { name: 'Yes', exact: true });
  const press = (page: Page, name: string) => page.getByRole('button', { name }).click();
  const states = async ({ lineId }: SentHose): Promise<(boolean | null)[]> =>
    (
      await shop.sql<{ agreed: boolean | null }>(
        `select (select agreed from contingency_decisions d where d.contingency_id = c.id order by sequence desc limit 1) as agreed
           from contingencies c where c.line_id = $1 order by sequence`,
        [lineId],
      )
    ).map(({ agreed }) => agreed);

  it('in plain words, with nothing ticked: what, how likely, and up to how much', async () => {
    const { token } = await builder.sentHose();
    const page = await open(token);
    const group = page.getByRole('group', { name: /^If something happens during: / });
    const words = (await group.innerText()).replace(/\s+/g, ' ');
    expect(words).toContain(
      `${NUT.what} How likely: about 1 in 4. It would add 0.80 h of labour, Brake pipe, made up. Up to $150.00 more, tax included; nothing if it does not happen.`,
    );
    expect(words).toContain(`${SCREW.what} How likely: about 1 in 12.`);
    expect(await page.locator('input:checked').count()).toBe(0);
    const heights = await group
      .locator('label')
      .evaluateAll((all) => all.map((one) => one.getBoundingClientRect().height));
    expect(Math.min(...heights)).toBeGreaterThanOrEqual(56);
    expect(await sidewaysScroll(page)).toBe(0);
    await shoot(page, 'owner-maybe-390', true);
  });

  it('agrees to one cap beside the yes, looks again with both sums, and it is kept apart from the line', async () => {
    const hose = await builder.sentHose();
    const page = await open(hose.token);
    await yes(page).check();
    await box(page, '$150.00').check();
    await press(page, 'Check my answers');
    const seen = (await page.locator('main').innerText()).replace(/\s+/g, ' ');
    expect(seen).toContain(`${NUT.what}. Go ahead, up to $150.00.`);
    expect(seen).toContain(`${SCREW.what}. Ask me first.`);
    expect(seen).toContain('Total $243.22 At most $393.22, if all of this happens too');
    await shoot(page, 'owner-maybe-review-390', true);

    // Back and forth loses no tick.
    await press(page, 'Change something');
    expect(await box(page, '$150.00').isChecked()).toBe(true);
    expect(await box(page, '$20.00').isChecked()).toBe(false);
    await press(page, 'Check my answers');
    await page.getByLabel('Your name').fill('Ines Halloway');
    await press(page, 'Send my answers');
    const kept = (await page.locator('main').innerText()).replace(/\s+/g, ' ');
    expect(kept).toContain('Agreed to in all $243.22 Up to $150.00 more only if');
    expect(await states(hose)).toEqual([true, false]);
    const estimate = await shop.frontDesk.get(`/repair-orders/${hose.repairOrderId}/estimate`).expect(200);
    expect(estimate.body).toMatchObject({ authorisedCents: 24_322, contingentCents: 15_000 });
  });

  it('ticks without a yes to the work, and nothing is agreed to', async () => {
    const hose = await builder.sentHose();
    const page = await open(hose.token);
    await page.getByRole('radio', { name: 'Not now' }).check();
    await box(page, '$150.00').check();
    await press(page, 'Check my answers');
    expect(await page.locator('main').innerText()).not.toContain('At most');
    await page.getByLabel('Your name').fill('Ines Halloway');
    await press(page, 'Send my answers');
    expect(await states(hose)).toEqual([null, null]);
  });

  it('may take it back while work is under way, until it has happened', async () => {
    const work = await builder.underWay();
    const page = await open(work.token);
    await page.getByRole('link', { name: 'Change or add an answer' }).click();
    await page.getByText('Work on this has begun.').waitFor();
    expect(await box(page, '$150.00').isChecked()).toBe(true);
    await box(page, '$150.00').uncheck();
    await press(page, 'Check my answers');
    await page.getByLabel('Your name').fill('Ines Halloway');
    await press(page, 'Send my answers');
    await page.getByText('We have your answers').waitFor();
    expect(await states(work)).toEqual([false, true]);
  });

  it('reads afterwards what happened, why, what it cost of the cap, and sees the photo', async () => {
    const work = await builder.underWay();
    const reason = 'The nut turned with the pipe and rounded off.';
    const photoId = await builder.photo(work.nut.id);
    await shop.technician.post(`/contingencies/${work.nut.id}/trigger`, { reason, photoId }).expect(200);
    const page = await open(work.token);
    const words = (await page.locator('main').innerText()).replace(/\s+/g, ' ');
    expect(words).toContain(reason);
    expect(words).toContain('$136.86 charged, of the $150.00 that you agreed to at most.');
    expect(words).toContain('Agreed to in all $380.08 Up to $20.00 more only if');
    const photo = page.getByRole('img', { name: `Photo of what happened: ${NUT.what}` });
    await photo.scrollIntoViewIfNeeded();
    const picture = await page.request.get(`${shop.url}/o/${work.token}/photos/${photoId}?size=small`);
    expect(picture.headers()['content-type']).toBe('image/webp');
    await shoot(page, 'owner-happened-390', true);
    const changing = await open(work.token, { query: '?change' });
    expect(await changing.getByRole('checkbox').count()).toBe(1);
  });

  it('can be read and ticked by everybody, in both lights, and without a script', async () => {
    const { token } = await builder.sentHose();
    for (const dim of [false, true]) {
      const page = await open(token, { dim, scripts: true });
      await yes(page).check();
      await box(page, '$150.00').check();
      expect([dim, await accessibilityFaults(page)]).toEqual([dim, []]);
      await shoot(page, `owner-maybe-ticked-${dim ? 'dim' : 'day'}`, true);
      expect(await page.locator('script').count()).toBe(0);
    }
  });
});
