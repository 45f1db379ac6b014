import type { Browser, BrowserContext, Page } from 'playwright-core';
import { demoShop, type DemoShop } from '../support/demo-shop.js';
import type { Person } from '../support/shop-under-test.js';
import { accessibilityFaults, openBrowser, openPage, shoot, sidewaysScroll, type Screen } from './browser.js';

// A Wednesday in the middle of the morning in the demonstration shop's zone.
const NOW = '2026-03-11T10:37:00-04:00';
const DESK: Screen = { width: 1440, height: 900, now: NOW };
const TABLET: Screen = { width: 820, height: 1180, touch: true, now: NOW };

interface Ticket {
  readonly workOrderId: string;
  readonly title: string;
  readonly state: string;
  readonly assignment: { readonly startsAt: string } | null;
  readonly claim: { readonly displayName: string } | null;
}

/** Four people at the real server, one after the other, as on one morning; every test goes on where the last one ended. */
describe('four people at the real server', () => {
  let shop: DemoShop;
  let browser: Browser;
  let wenna: Person;
  let saffi: Person;
  let desk: Page;
  let bay: Page;
  /** What a page complained about, and every answer that was not a good one. */
  const complaints: string[] = [];
  const contexts: BrowserContext[] = [];

  beforeAll(async () => {
    [shop, browser] = await Promise.all([demoShop(NOW), openBrowser()]);
    wenna = await shop.signIn('wenna@kestrelyard.example', 'front-desk-demo');
    saffi = await shop.signIn('saffi@kestrelyard.example', 'technician-demo');
  }, 120_000);
  afterAll(async () => {
    for (const context of contexts) await context.close();
    await browser.close();
    await shop.stop();
  });
  afterEach(() => {
    expect(complaints.splice(0)).toEqual([]);
  });

  /** A page that notes errors of scripts and of the policy, failed requests and refusals, each with its address. */
  async function at(screen: Screen): Promise<Page> {
    const { page, context } = await openPage(browser, shop.url, screen);
    contexts.push(context);
    watch(page);
    return page;
  }
  function watch(page: Page): void {
    page.on('pageerror', (error) => complaints.push(String(error)));
    page.on('console', (message) => {
      if (['error', 'warning'].includes(message.type()) && !message.text().startsWith('Failed to load'))
        complaints.push(message.text());
    });
    page.on('response', (answer) => {
      if (answer.status() >= 400)
        complaints.push(`${answer.status()} ${answer.request().method()} ${new URL(answer.url()).pathname}`);
    });
    page.on('requestfailed', (request) => {
      // The page was left while it was reading or listening; nobody is hurt.
      if (request.failure()?.errorText !== 'net::ERR_ABORTED')
        complaints.push(`${request.failure()?.errorText ?? ''} ${request.url()}`);
    });
  }
  const faultless = async (page: Page, name: string, fullPage = false): Promise<void> => {
    expect([name, await accessibilityFaults(page)]).toEqual([name, []]);
    expect([name, await sidewaysScroll(page)]).toEqual([name, 0]);
    await shoot(page, `real-${name}`, fullPage);
  };
  const tickets = async (): Promise<Ticket[]> =>
    ((await wenna.get('/board').expect(200)).body as { tickets: Ticket[] }).tickets;
  const byTitle = async (title: string): Promise<Ticket> => {
    const found = (await tickets()).find((one) => one.title === title);
    if (!found) throw new Error(`"${title}" is not on the board`);
    return found;
  };
  const drawn = (page: Page, { workOrderId }: Ticket) =>
    page.locator(`.track [data-ticket="${workOrderId}"]`);

  it('lets the front desk in by a press on a demonstration person, and shows the floor', async () => {
    desk = await at(DESK);
    await desk.goto('/sign-in');
    await desk.getByRole('button', { name: /Wenna Tarle/ }).waitFor();
    await faultless(desk, 'sign-in-desk-day');
    await desk.getByRole('button', { name: /Wenna Tarle/ }).click();
    await desk.getByRole('button', { name: 'Sign in' }).click();
    await desk.waitForURL('**/board');
    await desk
      .getByRole('region', { name: 'Bay 1, By the door' })
      .getByText('Juno Halvard', { exact: true })
      .waitFor();
    for (const words of ['On the clock', 'Past book', 'Paused', 'Planned', 'Held'])
      expect(await desk.locator('.track', { hasText: words }).count()).toBeGreaterThan(0);
    const waiting = desk.getByRole('region', { name: /Waiting/ });
    await waiting.getByText(/Engine mount, right, expected Thursday 12 March, 10:00/).waitFor();
    // Three without a place, and two that are planned for later but could be begun.
    expect(await desk.locator('.tray .tk').count()).toBe(5);
    expect(await drawn(desk, await byTitle('Right engine mount')).count()).toBe(0);
    await faultless(desk, 'board-desk-day');
    await shoot(desk, 'real-board-desk-day-whole', true);
    await desk.getByRole('button', { name: 'Day after' }).click();
    await drawn(desk, await byTitle('Right engine mount')).waitFor();
    expect(await drawn(desk, await byTitle('Rear brake pipes')).count()).toBe(0);
    await shoot(desk, 'real-board-tomorrow-day');
    await desk.getByRole('button', { name: 'Today' }).click();
    await drawn(desk, await byTitle('Rear brake pipes')).waitFor();
  }, 60_000);

  it('lets the desk move a planned ticket by keys, and it stays where it was put', async () => {
    const pads = await byTitle('Front brake pads');
    await drawn(desk, pads).focus();
    await desk.keyboard.press('Space');
    await desk.keyboard.press('ArrowRight');
    await desk.keyboard.press('ArrowRight');
    await shoot(desk, 'real-board-in-hand');
    await desk.keyboard.press('Enter');
    await desk.getByText(/now starts 12:00 in bay 3\./).waitFor();
    expect((await byTitle('Front brake pads')).assignment?.startsAt).toBe('2026-03-11T16:00:00.000Z');
    const before = await drawn(desk, pads).boundingBox();
    await desk.reload();
    await drawn(desk, pads).waitFor();
    expect((await drawn(desk, pads).boundingBox())?.x).toBeCloseTo(before?.x ?? 0, 0);
  }, 60_000);

  it('lets a manager make a tablet of the shop, and a technician in by name and PIN', async () => {
    bay = await at(TABLET);
    await bay.goto('/sign-in');
    await bay.getByRole('button', { name: /Orla Venn/ }).tap();
    await bay.getByRole('button', { name: 'Sign in' }).tap();
    await bay.waitForURL('**/board');
    await bay.getByRole('link', { name: /Orla Venn/ }).tap();
    await bay.getByLabel('Its name').fill('Between bays 2 and 3');
    await faultless(bay, 'enrol-tablet-day');
    await bay.getByRole('button', { name: 'Enrol this tablet' }).tap();
    await bay.getByText('Enrolled as Between bays 2 and 3.').waitFor();
    await bay.getByRole('button', { name: 'Sign out' }).tap();
    await bay.getByRole('button', { name: 'Juno Halvard' }).waitFor();
    await faultless(bay, 'tablet-people-day');
    await bay.getByRole('button', { name: 'Bram Tollan' }).tap();
    for (const digit of '4827') await bay.getByRole('button', { name: digit, exact: true }).tap();
    await faultless(bay, 'tablet-pin-day');
    await bay.getByRole('button', { name: 'Sign in' }).tap();
    await bay.waitForURL('**/board');
    await bay.getByRole('link', { name: /Bram Tollan/ }).waitFor();
  }, 60_000);

  it('tells the technician who holds what is taken', async () => {
    await faultless(bay, 'board-tablet-day');
    await bay.getByRole('button', { name: /On the clock.*Front brake pads and discs/ }).tap();
    const dialog = bay.getByRole('dialog');
    await dialog.getByText('Juno Halvard, since 09:56').waitFor();
    expect(await dialog.getByRole('button', { name: /Claim|Clock on/ }).count()).toBe(0);
    await faultless(bay, 'ticket-taken-tablet-day');
    await bay.keyboard.press('Escape');

    // Somebody is faster while the dialog is open and the news has not come yet.
    const silencer = await byTitle('Rear silencer');
    await bay.getByRole('button', { name: /Rear silencer/ }).tap();
    await dialog.getByRole('button', { name: 'Claim' }).waitFor();
    let goOn = (): void => undefined;
    const held = new Promise<void>((resolve) => (goOn = resolve));
    await bay.route('**/api/v1/board*', async (route) => {
      await held;
      await route.continue();
    });
    await saffi.post(`/work-orders/${silencer.workOrderId}/claims`).expect(201);
    await dialog.getByRole('button', { name: 'Claim' }).tap();
    await bay.waitForResponse((answer) => answer.status() === 409);
    goOn();
    await dialog
      .getByRole('alert')
      .getByText(/Saffi Renqvist has held this work order since/)
      .waitFor();
    await faultless(bay, 'ticket-lost-race-tablet-day');
    await bay.unrouteAll({ behavior: 'wait' });
    await bay.keyboard.press('Escape');
    expect(complaints.splice(0)).toEqual([`409 POST /api/v1/work-orders/${silencer.workOrderId}/claims`]);
  }, 60_000);

  it('shows the desk without a reload that the technician claims and clocks on', async () => {
    const belt = await byTitle('Auxiliary belt');
    const marker = await desk.evaluate(() => ((window as unknown as { mark: number }).mark = 1));
    await bay.getByRole('button', { name: /Auxiliary belt/ }).tap();
    await bay.getByRole('dialog').getByRole('button', { name: 'Claim' }).tap();
    await desk
      .locator(`.tray [data-ticket="${belt.workOrderId}"]`, { hasText: 'Claimed by Bram Tollan' })
      .waitFor();
    await bay.getByRole('dialog').getByRole('button', { name: 'Clock on' }).tap();
    const adrift = desk.getByRole('region', { name: /No bay/ });
    await adrift.locator(`[data-ticket="${belt.workOrderId}"].clocked`).waitFor();
    expect(await desk.evaluate(() => (window as unknown as { mark: number }).mark)).toBe(marker);
    for (const act of ['Finish', 'Pause', 'Clock off'])
      await bay.getByRole('dialog').getByRole('button', { name: act }).waitFor();
    await faultless(bay, 'ticket-mine-tablet-day');
    await bay.keyboard.press('Escape');
    await shoot(desk, 'real-board-desk-live', true);
  }, 60_000);

  it('brings the owner’s answers from a phone without scripts to the floor', async () => {
    const { body: orders } = await wenna.get('/repair-orders?limit=50').expect(200);
    const items = (orders as { items: { id: string; stage: string; vehicle: { plate: string } }[] }).items;
    const order = items.find(({ stage }) => stage === 'inspecting');
    const { body: operations } = await wenna.get('/operations?limit=100').expect(200);
    const operationId = (code: string): string | undefined =>
      (operations as { items: { id: string; code: string }[] }).items.find((one) => one.code === code)?.id;
    const line = async (title: string, code: string, positions: string[]): Promise<string> =>
      (
        (
          await wenna
            .post(`/repair-orders/${order?.id ?? ''}/lines`, {
              title,
              operations: [{ operationId: operationId(code), positions }],
            })
            .expect(201)
        ).body as { revisionId: string }
      ).revisionId;
    await line('Both front ball joints', 'BALL-JOINT', ['front-left', 'front-right']);
    await line('Track rod end, front right', 'TRACK-ROD', ['front-right']);
    const revisionId = await line('Wiper blades', 'WIPERS', ['vehicle']);
    const { body: sent } = await wenna.post(`/revisions/${revisionId}/send`).expect(200);
    const url = new URL((sent as { link: { url: string } }).link.url);

    const context = await browser.newContext({
      viewport: { width: 390, height: 844 },
      javaScriptEnabled: false,
      hasTouch: true,
    });
    contexts.push(context);
    const phone = await context.newPage();
    watch(phone);
    await phone.goto(`${shop.url}${url.pathname}`);
    expect(await phone.getByRole('heading', { level: 1 }).textContent()).toBe(
      'Three things need your answer',
    );
    await shoot(phone, 'real-owner-390', true);
    const answer = (title: string, word: string) =>
      phone
        .getByRole('group', { name: `Your answer to: ${title}` })
        .getByRole('radio', { name: word, exact: true });
    await answer('Both front ball joints', 'Yes').check();
    await answer('Track rod end, front right', 'Yes').check();
    await answer('Wiper blades', 'No').check();
    await phone.getByRole('button', { name: 'Check my answers' }).tap();
    await phone.getByLabel('Your name').fill('Aurel Stenby');
    await shoot(phone, 'real-owner-review-390', true);
    await phone.getByRole('button', { name: 'Send my answers' }).tap();
    await phone.getByRole('heading', { level: 1, name: 'We have your answers' }).waitFor();
    await shoot(phone, 'real-owner-answers-390', true);

    await desk.locator('.tray .tk', { hasText: 'Both front ball joints' }).waitFor();
    await desk.locator('.tray .tk', { hasText: 'Track rod end, front right' }).waitFor();
    expect(await desk.locator('.tk', { hasText: 'Wiper blades' }).count()).toBe(0);
  }, 60_000);

  it('shows it in dim light and as a list on a phone, keeps the session over a reload, and ends it', async () => {
    await desk.getByRole('switch', { name: 'Dim' }).click();
    await faultless(desk, 'board-desk-dim');
    await desk.setViewportSize({ width: 390, height: 844 });
    await desk.getByRole('main', { name: 'Bays, one after the other' }).waitFor();
    await faultless(desk, 'board-phone-dim', true);
    await desk.setViewportSize({ width: 1440, height: 900 });
    await desk.reload();
    await desk.getByText('Wenna Tarle').waitFor();
    await desk.getByRole('button', { name: 'Sign out' }).click();
    await desk.waitForURL('**/sign-in?why=left');
    await desk.getByText('You are signed out.').waitFor();
    await desk.goto('/board');
    await desk.waitForURL('**/sign-in*');
    await bay.reload();
    await bay.getByRole('link', { name: /Bram Tollan/ }).waitFor();
  }, 60_000);
});
