import { request as httpRequest } from 'node:http';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import request from 'supertest';
import { newId } from '#server/platform/ids';
import { EstimateBuilder } from '../builders/estimate.js';
import { aTemplate } from '../support/cars.js';
import { png } from '../support/pictures.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';
import { accessibilityFaults, openBrowser, shoot, sidewaysScroll } from './browser.js';

describe('the page that an owner opens', () => {
  let shop: ShopUnderTest;
  let estimate: EstimateBuilder;
  let browser: Browser;
  let context: BrowserContext | undefined;
  beforeAll(async () => {
    shop = await shopUnderTest();
    estimate = await EstimateBuilder.withCatalogue(shop);
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

  /** A phone without scripts, unless a test needs a script of its own. */
  async function open(
    token: string,
    o: { width?: number; height?: number; scripts?: boolean; dim?: boolean; query?: string } = {},
  ): Promise<{ page: Page; errors: string[] }> {
    context = await browser.newContext({
      viewport: { width: o.width ?? 390, height: o.height ?? 844 },
      javaScriptEnabled: o.scripts ?? false,
      colorScheme: o.dim ? 'dark' : 'light',
      hasTouch: true,
    });
    const page = await context.newPage();
    const errors: string[] = [];
    page.on('console', (message) => {
      if (message.type() === 'error' && !message.text().startsWith('Failed to load resource'))
        errors.push(message.text());
    });
    page.on('pageerror', (error) => errors.push(String(error)));
    await page.goto(`${shop.url}/o/${token}${o.query ?? ''}`);
    return { page, errors };
  }
  const answer = (page: Page, title: string, word: string) =>
    page
      .getByRole('group', { name: `Your answer to: ${title}` })
      .getByRole('radio', { name: word, exact: true });

  const button = (page: Page, name: string) => page.getByRole('button', { name });
  const total = (page: Page): Promise<string> =>
    page.evaluate(() => {
      const style = getComputedStyle(document.querySelector('.live') as Element);
      const part = (name: string): number => Number(style.getPropertyValue(name));
      return (part('--maj') + part('--min') / 100).toFixed(2);
    });
  const api = (token: string, rest: string, body: object) =>
    request(shop.url).post(`/api/v1/approval-links/${token}${rest}`).send(body);

  /** Five lines: two that the shared catalogue does not have in common with the rest, at odd prices. */
  async function fiveLines() {
    const repairOrderId = await estimate.stay();
    const lines = [
      await estimate.line(repairOrderId, 'brakes'),
      await estimate.line(repairOrderId, 'struts'),
      await estimate.line(repairOrderId, 'hose'),
      await estimate.line(repairOrderId, 'hose', {
        title: 'Brake hose, front right',
        operations: [{ operationId: estimate.operationId('HOSE'), positions: ['front-right'] }],
      }),
    ];
    const oil = await shop.frontDesk
      .post(`/repair-orders/${repairOrderId}/lines`, {
        title: 'Oil and filter',
        enteredHundredths: 47,
        enteredSource: "shop's own time",
        items: [
          { kind: 'fluid', name: 'Oil, litre', quantityHundredths: 437, unitPriceCents: 1199 },
          {
            kind: 'part',
            name: 'Filter',
            condition: 'new',
            source: 'stock',
            quantityHundredths: 100,
            unitPriceCents: 1333,
            coreCents: 250,
          },
        ],
      })
      .expect(201);
    const { id, revisionId } = oil.body as { id: string; revisionId: string };
    return {
      repairOrderId,
      lineIds: [...lines.map((line) => line.id), id],
      ...(await estimate.send(revisionId)),
    };
  }
  const TITLES = [
    'Front brake pads and discs',
    'Front struts, both sides',
    'Brake hose, front left',
    'Brake hose, front right',
    'Oil and filter',
  ];

  it('shows parts and labour of every line, chooses nothing, and needs neither script nor sideways scroll', async () => {
    const { token } = await fiveLines();
    const { page, errors } = await open(token, { height: 3600 });
    await shoot(page, 'owner-choice-390');
    expect(await page.locator('input:checked').count()).toBe(0);
    expect(await page.locator('script').count()).toBe(0);
    expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe('Five things need your answer');
    const brakes = page.locator('.ticket', { hasText: TITLES[0] ?? '' });
    for (const [figure, amount] of [
      ['Parts', '$227.90'],
      ['Labour 2.20 h', '$284.90'],
      ['Supplies, tax', '$34.85'],
    ])
      await expect(
        brakes
          .locator('div', { has: page.getByText(figure ?? '', { exact: true }) })
          .last()
          .innerText(),
      ).resolves.toContain(amount);
    expect(await brakes.innerText()).toMatch(/Unsafe\s+The car must not be driven with it\./);
    expect(await total(page)).toBe('0.00');
    expect(errors).toEqual([]);
    for (const width of [320, 768, 1280]) {
      await page.setViewportSize({ width, height: 900 });
      expect([width, await sidewaysScroll(page)]).toEqual([width, 0]);
      await shoot(page, `owner-choice-${width}`, width === 320);
    }
    const heights = await page
      .locator('.pick label, button')
      .evaluateAll((all) => all.map((one) => one.getBoundingClientRect().height));
    expect(Math.min(...heights)).toBeGreaterThanOrEqual(56);
  });

  it('adds up what is chosen by style rules, to the cent, for every choice of five', async () => {
    const { token, lineIds } = await fiveLines();
    const { page } = await open(token);
    const chosen = new Set<number>();
    for (let at = 1; at < 32; at += 1) {
      // Gray code: one answer changes at each step, and every choice comes once.
      const changed = Math.log2(at & -at);
      const isYes = !chosen.has(changed);
      await answer(page, TITLES[changed] ?? '', isYes ? 'Yes' : 'No').check();
      if (isYes) chosen.add(changed);
      else chosen.delete(changed);
      const price = await api(token, '/prices', { chosen: [...chosen].map((one) => lineIds[one]) }).expect(
        200,
      );
      expect([[...chosen], await total(page)]).toEqual([
        [...chosen],
        (price.body.totals.totalCents / 100).toFixed(2),
      ]);
    }
  }, 60_000);

  it('weighs less than 6 KB for five lines, and lets nothing else in', async () => {
    const { token } = await fiveLines();
    const { bytes, headers } = await fetched(`${shop.url}/o/${token}`);
    console.info(`owner's page, five lines: ${bytes} bytes on the wire`);
    expect(headers['content-encoding']).toBe('gzip');
    expect(bytes).toBeLessThan(6000);
    expect(headers['content-security-policy']).toMatch(
      /^default-src 'none'; style-src 'sha256-\S+' 'sha256-\S+'; img-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'$/,
    );
    expect(headers).toMatchObject({
      'cache-control': 'no-store',
      'referrer-policy': 'no-referrer',
      'x-robots-tag': 'noindex, nofollow',
    });
  });

  it('goes from choice over a second look to recorded answers, and a reload repeats nothing', async () => {
    const { token, repairOrderId, lineIds } = await fiveLines();
    const { page, errors } = await open(token, { height: 2400 });
    await answer(page, 'Brake hose, front left', 'Yes').check();
    await answer(page, 'Oil and filter', 'Yes').check();
    await answer(page, 'Front brake pads and discs', 'No').check();
    await answer(page, 'Front struts, both sides', 'Not now').check();
    const running = await total(page);
    await button(page, 'Check my answers').click();
    expect(await page.locator('.total b').innerText()).toBe(`$${running}`);
    expect(await page.getByText('Unsafe, and not repaired').count()).toBe(1);
    expect(await page.locator('h2', { hasText: 'No answer yet' }).count()).toBe(1);
    await shoot(page, 'owner-review-390');

    await button(page, 'Change something').click();
    expect(await answer(page, 'Oil and filter', 'Yes').isChecked()).toBe(true);
    await button(page, 'Check my answers').click();
    await page.getByLabel('Remind me on').fill('2026-09-01');
    await page.getByLabel('Your name').fill('Ines "Halloway" <b>');
    await button(page, 'Send my answers').click();
    await shoot(page, 'owner-answers-390');
    expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe('We have your answers');
    expect(await page.locator('.total b').innerText()).toBe(`$${running}`);
    expect(await page.locator('main').innerText()).toMatch(
      /Given by Ines "Halloway" <b>, .*\n[^]*We speak of it again on September 1, 2026/,
    );
    await page.reload();
    expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe('We have your answers');
    const log = await shop.frontDesk.get(`/repair-orders/${repairOrderId}/decisions`).expect(200);
    expect(log.body.items).toHaveLength(4);
    expect(log.body.items[0].evidence.wording).toBe('owner-page/1');
    const estimated = await shop.frontDesk.get(`/repair-orders/${repairOrderId}/estimate`).expect(200);
    expect((estimated.body.authorisedCents / 100).toFixed(2)).toBe(running);
    const sums = log.body.items.filter((one: { answer: string }) => one.answer === 'approved');
    expect(sums.reduce((sum: number, one: { shownTotalCents: number }) => sum + one.shownTotalCents, 0)).toBe(
      estimated.body.authorisedCents,
    );

    // Opened again: the open one still to answer, the others as they were; and once all are answered, the answers.
    await page.goto(`${shop.url}/o/${token}`);
    expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe('One thing needs your answer');
    expect(await answer(page, 'Front struts, both sides', 'Not now').isChecked()).toBe(true);
    await answer(page, 'Brake hose, front right', 'No').check();
    await button(page, 'Check my answers').click();
    await page.getByLabel('Your name').fill('Ines Halloway');
    await button(page, 'Send my answers').click();
    await page.goto(`${shop.url}/o/${token}`);
    expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe('Your answers so far');
    await page.getByRole('link', { name: 'Change or add an answer' }).click();
    expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe('Change an answer');
    expect(await page.locator('input:checked').count()).toBe(5);
    expect(lineIds).toHaveLength(5);
    expect(errors).toEqual([]);
  }, 60_000);

  it('tells what is missing, shows new figures before they count, and keeps what has begun', async () => {
    const { token, lines, repairOrderId, revision } = await estimate.sent('brakes', 'struts');
    const { page } = await open(token);
    await button(page, 'Check my answers').click();
    expect(await page.getByRole('alert').innerText()).toContain('at least one of them');
    await answer(page, 'Front struts, both sides', 'Yes').check();
    await button(page, 'Check my answers').click();
    await page.getByLabel('Your name').evaluate((input) => input.removeAttribute('required'));
    await page.getByLabel('Your name').fill(' ');
    await page.getByLabel('Your name').evaluate((input) => input.removeAttribute('minlength'));
    await button(page, 'Send my answers').click();
    expect(await page.getByRole('alert').innerText()).toContain('your name');
    // Meanwhile somebody else of the household says yes to the brakes: the struts' share is another one now.
    await api(token, '/decisions', {
      answers: [{ lineId: lines.brakes, answer: 'approved' }],
      shownSha256: revision.shownSha256,
      expectedTotalCents: 54_765,
      decidedBy: 'Piet Halloway',
    }).expect(200);
    await page.getByLabel('Your name').fill('Ines Halloway');
    await button(page, 'Send my answers').click();
    expect(await page.getByRole('alert').innerText()).toContain('figures have changed');
    expect(await page.getByLabel('Your name').inputValue()).toBe('Ines Halloway');
    await button(page, 'Send my answers').click();
    expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe('We have your answers');
    await begin(lines.brakes);
    await page.goto(`${shop.url}/o/${token}?change`);
    expect(await page.locator('.ticket', { hasText: 'Front brake pads' }).innerText()).toContain(
      'Work on this has begun',
    );
    expect(await page.locator('.pick').count()).toBe(1);
    await shoot(page, 'owner-begun-390', true);
    const seen = await shop.frontDesk.get(`/repair-orders/${repairOrderId}/estimate`);
    expect(seen.body.authorisedCents).toBe(seen.body.revisions[0].approvedCents);
  }, 60_000);

  it('is closed with whom to call when it expired or was withdrawn, and says nothing at all to a guess', async () => {
    const { token, link } = await estimate.sent('hose');
    await shop.frontDesk.delete(`/links/${link.id}`).expect(204);
    const { page } = await open(token);
    await shoot(page, 'owner-withdrawn-390');
    expect(await page.locator('main').innerText()).toMatch(
      /This link was withdrawn\s+Please call Kestrel Yard/,
    );
    expect(await page.getByRole('link', { name: /Call us/ }).getAttribute('href')).toBe('tel:+12025550100');
    expect((await request(shop.url).get(`/o/${token}`)).status).toBe(410);
    const guess = await request(shop.url).get(`/o/${'A'.repeat(64)}`);
    expect([guess.status, guess.headers['content-type']]).toEqual([404, 'text/html; charset=utf-8']);
    expect(guess.text).not.toContain('Kestrel');
    await request(shop.url).post('/o/nonsense').type('form').send({ a0: 'approved' }).expect(404);
  });

  it('shows what was measured beside the limit and its source, and the photos of its own lines only', async () => {
    const repairOrderId = await estimate.stay();
    const template = await aTemplate(shop, 'Owner sees it');
    const tread = template.stations[0]?.checkpoints[0]?.id ?? '';
    const by = { authorization: `Bearer ${shop.technician.token}` };
    const walk = await shop.technician
      .post(`/repair-orders/${repairOrderId}/inspections`, { templateId: template.id })
      .expect(201);
    const observation = await request(shop.url)
      .put(`/api/v1/inspections/${walk.body.id}/observations/${tread}`)
      .set(by)
      .send({
        verdict: 'repair',
        mayDrive: 'to-the-shop-only',
        readings: [{ value: '1.2', unit: 'mm' }],
        note: 'The tread is worn below what the law allows.',
        consequence: 'The car slides on a wet road.',
      });
    expect(observation.status).toBeLessThan(300);
    const photo = await request(shop.url)
      .post(`/api/v1/observations/${observation.body.id}/photos`)
      .set(by)
      .attach('photo', await png({ colour: '#40506a' }), 'tread.png')
      .expect(201);
    const findings = await shop.technician.get(`/repair-orders/${repairOrderId}/findings`).expect(200);
    const line = await shop.frontDesk
      .post(`/repair-orders/${repairOrderId}/lines`, {
        findingIds: [findings.body.items[0].id],
        enteredHundredths: 40,
        enteredSource: "shop's own time",
        items: [
          {
            kind: 'part',
            name: 'Tyre',
            condition: 'used',
            source: 'donor-vehicle',
            quantityHundredths: 100,
            unitPriceCents: 4200,
          },
        ],
      })
      .expect(201);
    const { token } = await estimate.send(line.body.revisionId as string);
    const other = await estimate.sent('hose');
    const path = `/photos/${photo.body.id}?size=small`;
    const shown = await request(shop.url).get(`/o/${token}${path}`).expect(200);
    expect(shown.headers['content-type']).toBe('image/webp');
    await request(shop.url).get(`/o/${other.token}${path}`).expect(404);
    await request(shop.url).get(`/o/${token}/photos/nonsense`).expect(404);
    const { page, errors } = await open(token, { height: 1100 });
    await shoot(page, 'owner-photo-390');
    const text = await page.locator('.ticket').innerText();
    expect(text).toContain(
      'Measured: tread 1.2 mm, limit not less than 1.6 mm (UK and EU rule, central three quarters)',
    );
    expect(text).toContain('If it waits: The car slides on a wet road.');
    expect(text).toContain('Tyre, used, from a donor vehicle');
    const image = page.getByRole('img', { name: /^Photo 1 of: / });
    expect(await image.evaluate((one) => (one as HTMLImageElement).naturalWidth)).toBeGreaterThan(0);
    expect(errors).toEqual([]);
  });

  it.each([
    ['day', false],
    ['dim', true],
  ])(
    'has no serious accessibility fault, in %s light, on any of its pages',
    async (name, dim) => {
      const { token } = await estimate.sent('brakes', 'struts', 'hose');
      const { page } = await open(token, { scripts: true, dim });
      const faults = async (): Promise<void> => expect(await accessibilityFaults(page)).toEqual([]);
      await faults();
      await answer(page, 'Front struts, both sides', 'No').focus();
      await page.keyboard.press('ArrowLeft');
      expect(await answer(page, 'Front struts, both sides', 'Not now').isChecked()).toBe(true);
      await answer(page, 'Front brake pads and discs', 'No').check();
      await answer(page, 'Brake hose, front left', 'Yes').check();
      await shoot(page, `owner-chosen-${name}`);
      await faults();
      await button(page, 'Check my answers').click();
      await faults();
      await shoot(page, `owner-review-${name}`, true);
      await page.getByLabel('Your name').fill('Ines Halloway');
      await button(page, 'Send my answers').click();
      await faults();
    },
    60_000,
  );

  /** Somebody clocks on to the line's work order; past the holds, which are another story. */
  async function begin(lineId: string): Promise<void> {
    await shop.sql(
      `insert into clock_entries (shop_id, id, technician_id, kind, work_order_id, started_at, recorded_by)
       select shop_id, $2, $3, 'work', id, $4, $3 from work_orders where line_id = $1`,
      [lineId, newId(), shop.technician.staffId, shop.clock.now()],
    );
  }
});

/** As it comes over the wire, not unpacked. */
function fetched(url: string): Promise<{ bytes: number; headers: Record<string, unknown> }> {
  return new Promise((done, fail) => {
    httpRequest(url, { headers: { 'accept-encoding': 'gzip' } }, (response) => {
      let bytes = 0;
      response.on('data', (chunk: Buffer) => (bytes += chunk.length));
      response.on('end', () => done({ bytes, headers: response.headers }));
    })
      .on('error', fail)
      .end();
  });
}
