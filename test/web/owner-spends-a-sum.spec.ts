import type { Browser, BrowserContext, Page } from 'playwright-core';
import request from 'supertest';
import { newId } from '#server/platform/ids';
import { EstimateBuilder } from '../builders/estimate.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';
import { accessibilityFaults, openBrowser, shoot, sidewaysScroll } from './browser.js';

const BRAKES = 'Front brake pads and discs';
const STRUTS = 'Front struts, both sides';
const HOSE = 'Brake hose, front left';
const USED = 'Used brake hose, front left';
const OIL = 'Oil and filter';

describe('the owner with a certain sum in mind', () => {
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

  async function open(
    address: string,
    o: { width?: number; height?: number; dim?: boolean; scripts?: boolean } = {},
  ): Promise<Page> {
    context = await browser.newContext({
      viewport: { width: o.width ?? 390, height: o.height ?? 844 },
      javaScriptEnabled: o.scripts ?? false,
      colorScheme: o.dim ? 'dark' : 'light',
      hasTouch: true,
    });
    const page = await context.newPage();
    await page.goto(`${shop.url}/o/${address}`);
    return page;
  }
  /** Brakes that are unsafe, struts, a new hose or a used one, and oil that was asked for. */
  async function fiveLines() {
    const repairOrderId = await estimate.stay();
    const brakes = await estimate.line(repairOrderId, 'brakes', { stake: 'harm' });
    const struts = await estimate.line(repairOrderId, 'struts', { stake: 'comfort' });
    const hose = await estimate.line(repairOrderId, 'hose', { stake: 'stranded' });
    const finding = await estimate.finding(repairOrderId, 'hose');
    const used = await shop.frontDesk
      .post(`/repair-orders/${repairOrderId}/lines`, {
        ...estimate.request('hose', { findingIds: [finding.id], title: USED, excludes: [hose.id] }),
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
      })
      .expect(201);
    const oil = await shop.frontDesk
      .post(`/repair-orders/${repairOrderId}/lines`, {
        title: OIL,
        enteredHundredths: 47,
        enteredSource: "shop's own time",
        items: [{ kind: 'fluid', name: 'Oil, litre', quantityHundredths: 437, unitPriceCents: 1199 }],
      })
      .expect(201);
    const sent = await estimate.send(brakes.revisionId);
    const lines = {
      [BRAKES]: brakes.id,
      [STRUTS]: struts.id,
      [HOSE]: hose.id,
      [USED]: used.body.id,
      [OIL]: oil.body.id,
    };
    return { ...sent, repairOrderId, revisionId: brakes.revisionId, lines: lines as Record<string, string> };
  }
  const answers = async (page: Page): Promise<Record<string, string>> =>
    Object.fromEntries(
      await page
        .locator('#answers .ticket')
        .evaluateAll((tickets) =>
          tickets.map((ticket) => [
            ticket.querySelector('h2')?.textContent ?? '',
            ticket.querySelector<HTMLInputElement>('.pick input:checked')?.value ?? '',
          ]),
        ),
    );
  const total = (page: Page): Promise<string> =>
    page.evaluate(() => {
      const style = getComputedStyle(document.querySelector('.live') as Element);
      const part = (name: string): number => Number(style.getPropertyValue(name));
      return (part('--maj') + part('--min') / 100).toFixed(2);
    });
  const spend = async (page: Page, sum: string): Promise<void> => {
    await page.getByLabel('What I can spend now').fill(sum);
    await page.getByRole('button', { name: 'Show what fits' }).click();
  };
  const inSet = (page: Page): Promise<string[]> =>
    page.locator('#spend .ticket > ul').first().locator('li').allTextContents();

  it('types it, takes what fits, changes one answer and sends: only then anything counts', async () => {
    const { token, repairOrderId } = await fiveLines();
    const page = await open(token, { height: 2000 });
    await shoot(page, 'owner-spend-start-390');
    await spend(page, '$800');
    expect(new URL(page.url()).search).toBe('?spend=%24800');
    const told = page.locator('#spend .ticket');
    expect(await page.getByRole('heading', { level: 3, name: 'For $800.00' }).count()).toBe(1);
    expect((await inSet(page)).map((item) => item.trim())).toEqual([BRAKES, HOSE, OIL]);
    expect(await told.innerText()).toMatch(/Together \$\d{3}\.\d\d, tax included\. \$\d+\.\d\d is left\./);
    expect(await told.innerText()).toContain('Another way to do it is chosen.');
    expect(await told.innerText()).toContain('nothing on this page keeps the car from being driven');
    const together = /Together \$(\d+\.\d\d)/.exec(await told.innerText())?.[1];
    await shoot(page, 'owner-spend-800-390', true);
    expect(await page.locator('input:checked').count()).toBe(0);

    await page.getByRole('button', { name: 'Put this into my answers', exact: true }).click();
    expect(page.url()).toMatch(/take=drivable#answers$/);
    expect(await answers(page)).toEqual({
      [BRAKES]: 'approved',
      [STRUTS]: 'deferred',
      [HOSE]: 'approved',
      [USED]: 'deferred',
      [OIL]: 'approved',
    });
    expect(await page.getByText('Your answers below are filled in for $800.00').count()).toBe(1);
    // The sum under the answers, which style rules add up, is the price that was told.
    expect(await total(page)).toBe(together);
    await shoot(page, 'owner-spend-taken-390');
    expect(await shop.sql('select 1 from decisions where repair_order_id = $1', [repairOrderId])).toEqual([]);

    await page
      .getByRole('group', { name: `Your answer to: ${OIL}` })
      .getByRole('radio', { name: 'No', exact: true })
      .check({ force: true });
    await page.getByRole('button', { name: 'Check my answers' }).click();
    await page.getByLabel('Your name').fill('Ines Halloway');
    await page.getByRole('button', { name: 'Send my answers' }).click();
    expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe('We have your answers');
    const log = await shop.frontDesk.get(`/repair-orders/${repairOrderId}/decisions`).expect(200);
    expect(
      Object.fromEntries(
        log.body.items.map(({ title, answer }: { title: string; answer: string }) => [title, answer]),
      ),
    ).toEqual({
      [BRAKES]: 'approved',
      [STRUTS]: 'deferred',
      [HOSE]: 'approved',
      [USED]: 'deferred',
      [OIL]: 'declined',
    });

    // All is decided; the owner comes back with more money, which is on top of what was agreed to.
    await page.goto(`${shop.url}/o/${token}?change`);
    expect(await page.locator('#spend').innerText()).toMatch(
      /on top of the \$\d+\.\d\d that you have said yes to/,
    );
    await spend(page, '900');
    expect(await inSet(page)).toEqual(expect.arrayContaining([expect.stringContaining(STRUTS)]));
    await page.getByRole('button', { name: 'Put this into my answers', exact: true }).click();
    expect(await answers(page)).toMatchObject({
      [BRAKES]: 'approved',
      [HOSE]: 'approved',
      [STRUTS]: 'approved',
      [USED]: 'deferred',
    });
  });

  it('is told plainly when the car is not to be driven with it, and what would make it safe', async () => {
    const { token } = await fiveLines();
    const page = await open(`${token}?spend=400`);
    const told = await page.locator('#spend .ticket').innerText();
    expect(told).toContain('$400.00 does not make the car safe to drive. The least that does is $547.65.');
    expect(told).toContain('If the car stays parked');
    expect(told).toMatch(
      /With this the car is not to be driven:\s+Front brake pads and discs: unsafe, and not repaired\./,
    );
    await shoot(page, 'owner-spend-too-little-390', true);
    await page.getByRole('button', { name: 'Put this into my answers; the car stays parked' }).click();
    expect(await answers(page)).toMatchObject({ [BRAKES]: 'deferred' });
  });

  it('climbs from the least that makes the car safe to all of it, each step a sum', async () => {
    const { token } = await fiveLines();
    const page = await open(token);
    await page.locator('.steps summary').click();
    const steps = page.locator('.steps li');
    const first = await steps.first().innerText();
    expect(first.replace(/\s+/g, ' ')).toBe(`$547.65 The least that makes the car safe: ${BRAKES}`);
    const sums = await page.locator('.steps li a').allTextContents();
    const amounts = sums.map((sum) => Number(sum.replace(/[$,]/g, '')));
    expect(amounts).toEqual([...amounts].sort((a, b) => a - b));
    expect(await steps.last().innerText()).toMatch(/The most that can be done together: adds /);
    expect(await page.locator('#answers').innerText()).toContain(`One or the other: this, or ${USED}.`);
    await shoot(page, 'owner-spend-steps-390', true);
    await page.locator('.steps li a').nth(1).click();
    expect(await page.getByRole('heading', { level: 3 }).first().textContent()).toBe(
      `For ${sums[1]?.trim()}`,
    );
    expect(await page.locator('#spend .ticket').innerText()).toContain(
      `Together ${sums[1]?.trim()}, tax included.`,
    );
  });

  it('goes on beside work that has begun, and asks nothing where one thing or nothing is left', async () => {
    const { token, revisionId, revision, lines } = await fiveLines();
    const decide = async (chosen: readonly string[], expectedTotalCents: number) =>
      shop.frontDesk
        .post(`/revisions/${revisionId}/decisions`, {
          answers: chosen.map((title) => ({ lineId: lines[title], answer: 'approved' })),
          shownSha256: revision.shownSha256,
          expectedTotalCents,
          decidedBy: 'Ines Halloway',
          channel: 'in-person',
        })
        .expect(200);
    await decide([BRAKES], 54_765);
    const [work] = await shop.sql<{ id: string }>('select id from work_orders where line_id = $1', [
      lines[BRAKES],
    ]);
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
    const page = await open(`${token}?spend=230`);
    const told = await page.locator('#spend').innerText();
    expect(told).toContain('on top of the $547.65 that you have said yes to');
    // The wheel is off and the brakes are bled: the hose costs its own work only.
    expect((await inSet(page)).map((item) => item.trim())).toEqual([HOSE, OIL]);
    // Nothing unsafe is left to do, so no step may claim to make the car safe.
    expect(told).toContain('Step by step, from the least to all of it');
    await page.locator('.steps summary').click();
    expect(await page.locator('.steps').innerText()).not.toContain('makes the car safe');
    await page.getByRole('button', { name: 'Put this into my answers', exact: true }).click();
    const filled = await answers(page);
    expect(filled).toMatchObject({
      [BRAKES]: '',
      [HOSE]: 'approved',
      [OIL]: 'approved',
      [STRUTS]: 'deferred',
    });

    const api = await request(shop.url)
      .post(`/api/v1/approval-links/${token}/choices`)
      .send({ budgetCents: 23_000 })
      .expect(200);
    expect(api.body.sets[0].chosen).toEqual([lines[HOSE], lines[OIL]]);
    const all = await request(shop.url)
      .post(`/api/v1/approval-links/${token}/choices`)
      .send({ budgetCents: 900_000 })
      .expect(200);
    await decide([HOSE, OIL, STRUTS], all.body.sets[0].totalCents);
    await page.goto(`${shop.url}/o/${token}?spend=100`);
    expect(await page.getByRole('heading', { level: 1 }).count()).toBe(1);
    expect(await page.locator('#spend').count()).toBe(0);
  });

  it('is asked again, in the field, when what was typed is not a sum', async () => {
    const { token } = await fiveLines();
    const page = await open(token);
    for (const [typed, said] of [
      ['a lot', '“a lot” is not a sum that we can read'],
      ['', 'please type a sum, such as 800'],
      ['<b>5</b>', '“<b>5</b>” is not a sum'],
    ] as const) {
      await spend(page, typed);
      const field = page.getByLabel('What I can spend now');
      expect(await page.locator('#spend-wrong').innerText()).toContain(said);
      expect(await field.inputValue()).toBe(typed);
      expect(await field.getAttribute('aria-describedby')).toBe('spend-wrong');
      expect(await page.locator('#spend .ticket').count()).toBe(0);
    }
    await shoot(page, 'owner-spend-wrong-390');
    const status = await page.goto(`${shop.url}/o/${token}?spend=a+lot`);
    expect(status?.status()).toBe(422);
  });

  it('is for everybody: any width, both lights, by the rules for all people, and small', async () => {
    const { token } = await fiveLines();
    for (const [address, name] of [
      [`${token}?spend=800`, '800'],
      [`${token}?spend=400`, '400'],
      [`${token}?spend=800&take=drivable`, 'taken'],
      [`${token}?spend=x`, 'wrong'],
    ] as const)
      for (const [width, dim] of [
        [320, false],
        [390, true],
        [1280, false],
      ] as const) {
        const page = await open(address, { width, dim, scripts: true });
        for (const summary of await page.locator('summary').all()) await summary.click();
        expect([name, width, await sidewaysScroll(page)]).toEqual([name, width, 0]);
        expect([name, width, await accessibilityFaults(page)]).toEqual([name, width, []]);
        if (name !== 'wrong') await shoot(page, `owner-spend-${name}-${width}${dim ? '-dim' : ''}`, true);
        const levels = await page
          .locator('h1,h2,h3,h4')
          .evaluateAll((all) => all.map((one) => Number(one.tagName[1])));
        expect(levels.every((level, at) => level - (levels[at - 1] ?? 0) <= 1)).toBe(true);
        await context?.close();
      }
    const answer = await fetch(`${shop.url}/o/${token}?spend=800`, {
      headers: { 'accept-encoding': 'gzip' },
    });
    const body = await answer.text();
    expect(body).not.toContain('<script');
    expect(Number(answer.headers.get('content-length') ?? body.length)).toBeLessThan(40_000);
  }, 120_000);
});
