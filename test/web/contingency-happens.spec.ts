import type { Browser, BrowserContext, Page } from 'playwright-core';
import { demoShop, type DemoShop } from '../support/demo-shop.js';
import { phoneJpeg } from '../support/pictures.js';
import type { Person } from '../support/shop-under-test.js';
import { accessibilityFaults, openBrowser, openPage, shoot, sidewaysScroll, type Screen } from './browser.js';

const NOW = '2026-03-11T10:37:00-04:00';
const TABLET: Screen = { width: 820, height: 1180, touch: true, now: NOW };
const WHAT = 'The pressure switch breaks when the old drier comes off';
const REASON = 'Its plastic was brittle; the plug came away with half of the switch.';

interface Ticket {
  readonly workOrderId: string;
  readonly title: string;
  readonly bookHundredths: number;
}

/** One technician at the real server whose owner has agreed to something in advance; every test goes on from the last. */
describe('a technician to whom it happens', () => {
  let shop: DemoShop;
  let browser: Browser;
  let saffi: Person;
  let page: Page;
  let before: Ticket;
  const contexts: BrowserContext[] = [];

  beforeAll(async () => {
    [shop, browser] = await Promise.all([demoShop(NOW), openBrowser()]);
    saffi = await shop.signIn('saffi@kestrelyard.example', 'technician-demo');
    before = await work();
    page = await tablet();
  }, 120_000);
  afterAll(async () => {
    for (const context of contexts) await context.close();
    await browser.close();
    await shop.stop();
  });

  const work = async (): Promise<Ticket> => {
    const { body } = await saffi.get('/board').expect(200);
    const found = (body as { tickets: Ticket[] }).tickets.find(
      ({ title }) => title === 'Air-conditioning service',
    );
    if (!found) throw new Error('the air conditioning is not on the board');
    return found;
  };
  async function tablet(light: 'day' | 'dim' = 'day'): Promise<Page> {
    const opened = await openPage(browser, shop.url, { ...TABLET, light });
    contexts.push(opened.context);
    await opened.page.goto('/sign-in');
    await opened.page.getByRole('button', { name: /Saffi/ }).tap();
    await opened.page.getByRole('button', { name: 'Sign in' }).tap();
    await opened.page.waitForURL('**/board');
    return opened.page;
  }
  const openTicket = async (on: Page): Promise<ReturnType<Page['getByRole']>> => {
    await on.getByRole('button', { name: /Air-conditioning service/ }).tap();
    const dialog = on.getByRole('dialog');
    await dialog.getByText(WHAT).waitFor();
    return dialog;
  };
  const form = (on: Page) => on.getByRole('dialog').locator('form.happened');
  const write = async (on: Page): Promise<void> => {
    await on.getByRole('button', { name: 'It happened' }).tap();
    await form(on)
      .locator('input[type=file]')
      .setInputFiles({
        name: 'IMG_0001.JPG',
        mimeType: 'image/jpeg',
        buffer: await phoneJpeg({ width: 3000, height: 2000 }),
      });
    await form(on).getByLabel('What happened?').fill(REASON);
    await form(on).locator('img').waitFor();
  };

  it('sees on the ticket what was agreed to, under the cautions, with an act as big as a glove', async () => {
    const dialog = await openTicket(page);
    await dialog.getByText('Before you start').waitFor();
    const act = page.getByRole('button', { name: 'It happened' });
    expect((await act.boundingBox())?.height).toBeGreaterThanOrEqual(72);
    await shoot(page, 'real-ticket-maybe-tablet-day');
    await act.tap();
    await expect(form(page).getByRole('button', { name: 'Say that it happened' }).isDisabled()).resolves.toBe(
      true,
    );
    await form(page).getByRole('button', { name: 'Back' }).tap();
  }, 60_000);

  it('loses nothing when the line is gone: it is kept, over a closed ticket and a page that is loaded anew', async () => {
    await write(page);
    await page.context().setOffline(true);
    await form(page).getByRole('button', { name: 'Say that it happened' }).tap();
    await page
      .getByRole('dialog')
      .getByText(/kept on this device/)
      .waitFor();
    await shoot(page, 'real-ticket-happened-lost-tablet-day');
    await page.getByRole('button', { name: 'Close' }).tap();
    await page.context().setOffline(false);
    await page.reload();
    await openTicket(page);
    await page.getByRole('button', { name: 'It happened' }).tap();
    await form(page)
      .getByText(/You began this before/)
      .waitFor();
    expect(await form(page).getByLabel('What happened?').inputValue()).toBe(REASON);
    await form(page).locator('img').waitFor();
    expect((await work()).bookHundredths).toBe(before.bookHundredths);
  }, 60_000);

  it('tells it: charged once, the book hours grow on the ticket, and the reason stands there', async () => {
    expect([await accessibilityFaults(page), await sidewaysScroll(page)]).toEqual([[], 0]);
    await form(page).scrollIntoViewIfNeeded();
    await shoot(page, 'real-ticket-happened-tablet-day');
    const targets = await form(page)
      .locator('button, label.button')
      .evaluateAll((all) => all.map((one) => one.getBoundingClientRect().height));
    expect(Math.min(...targets)).toBeGreaterThanOrEqual(72);
    await form(page).getByRole('button', { name: 'Say that it happened' }).tap();
    await page.getByRole('dialog').getByText(`by Saffi`).waitFor();
    expect(await page.getByRole('dialog').locator('.maybe').innerText()).toContain(REASON);
    expect((await work()).bookHundredths).toBe(before.bookHundredths + 40);
    const { body } = await saffi.get(`/work-orders/${before.workOrderId}/contingencies`).expect(200);
    const [told] = (body as { items: { trigger: { photoId: string } }[] }).items;
    const photo = await saffi.get(`/photos/${told?.trigger.photoId}`).expect(200);
    expect(photo.headers['content-type']).toBe('image/webp');
  }, 60_000);

  it('who opens the ticket again, also in dim light, finds it told and nothing left to send', async () => {
    const other = await tablet('dim');
    await openTicket(other);
    expect(await other.getByRole('button', { name: 'It happened' }).count()).toBe(0);
    await shoot(other, 'real-ticket-told-tablet-dim');
    expect(await accessibilityFaults(other)).toEqual([]);
  }, 60_000);
});
