import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { demoShop, type DemoShop } from '../support/demo-shop.js';
import type { Person } from '../support/shop-under-test.js';
import { accessibilityFaults, openBrowser, openPage, shoot, sidewaysScroll, type Screen } from './browser.js';

// A Wednesday in the middle of the morning in the demonstration shop's zone.
const NOW = '2026-03-11T10:37:00-04:00';
const DESK: Screen = { width: 1440, height: 900, now: NOW };
const PHONE: Screen = { width: 390, height: 844, touch: true, now: NOW };

/** The times of the shop at the real server; every test goes on where the last one ended. */
describe('the page of the times', () => {
  let shop: DemoShop;
  let browser: Browser;
  let orla: Person;
  const contexts: BrowserContext[] = [];
  const errors: (readonly string[])[] = [];

  beforeAll(async () => {
    [shop, browser] = await Promise.all([demoShop(NOW), openBrowser()]);
    orla = await shop.signIn('orla@kestrelyard.example', 'manager-demo');
  }, 120_000);
  afterAll(async () => {
    for (const context of contexts) await context.close();
    await browser.close();
    await shop.stop();
    expect(errors.flat()).toEqual([]);
  });

  async function times(who: RegExp, screen: Screen): Promise<Page> {
    const opened = await openPage(browser, shop.url, screen);
    contexts.push(opened.context);
    errors.push(opened.errors);
    const { page } = opened;
    await page.goto('/calendar');
    await page.waitForURL('**/sign-in*');
    await page.getByRole('button', { name: who }).click();
    await page.getByRole('button', { name: 'Sign in' }).click();
    await page.waitForURL('**/calendar');
    await page.getByRole('region', { name: 'Away' }).waitFor();
    return page;
  }
  async function faultless(page: Page, name: string): Promise<void> {
    await shoot(page, `times-${name}`, true);
    expect(await sidewaysScroll(page)).toBe(0);
    expect(await accessibilityFaults(page)).toEqual([]);
  }
  const part = (page: Page, name: string) => page.getByRole('region', { name });
  const said = (page: Page, words: string | RegExp) =>
    page.locator('.status-line').getByText(words).waitFor();

  it('shows who is away and when the shop is closed', async () => {
    const page = await times(/Orla/, DESK);
    await part(page, 'Away').getByText('Mattis').first().waitFor();
    await part(page, 'Away').getByText('Tuesday 17 March', { exact: true }).waitFor();
    await part(page, 'Shop closed').getByText('Friday 3 April').first().waitFor();
    await part(page, 'Out of service').getByText('Every bay and every tool is there.').waitFor();
    await faultless(page, 'desk-day');
  }, 90_000);

  it('records an absence by the keyboard, names what is planned, and takes it back', async () => {
    const page = await times(/Wenna/, DESK);
    await page.getByRole('button', { name: 'Record an absence' }).press('Enter');
    const slip = page.getByRole('dialog', { name: 'Record an absence' });
    await slip.getByLabel('Who', { exact: true }).selectOption({ index: 1 });
    await slip.getByText('Some hours of a day').click();
    await slip.getByLabel('From').fill('10:00');
    await slip.getByLabel('Until').fill('09:00');
    await slip.getByRole('button', { name: 'Record' }).click();
    await slip.getByText('The end must be later than the start.').first().waitFor();
    expect(await slip.getByLabel('Until').getAttribute('aria-invalid')).toBe('true');
    await faultless(page, 'absence-desk-day');
    await slip.getByLabel('Until').fill('18:00');
    await slip.getByRole('button', { name: 'Record' }).click();
    await said(page, /is away, Wednesday 11 March\. Work orders planned in that time: \d+/);
    const entry = part(page, 'Away').locator('.entry').first();
    await entry.getByText('Wednesday 11 March, 10:00 to 18:00').waitFor();
    await entry.getByText('Planned in that time').waitFor();
    await faultless(page, 'absent-desk-day');
    await entry.getByRole('button', { name: /Withdraw/ }).click();
    await page.getByRole('dialog').getByRole('button', { name: 'Withdraw' }).click();
    await said(page, /withdrawn/);
    expect(await part(page, 'Away').locator('.entry').count()).toBe(1);
  }, 90_000);

  it('takes a lift out of service on a phone and puts it back', async () => {
    const page = await times(/Wenna/, PHONE);
    await page.getByRole('button', { name: 'Take out of service' }).tap();
    const slip = page.getByRole('dialog');
    await slip.getByLabel('What').selectOption({ label: 'Bay 3, Back wall' });
    await slip.getByLabel('Reason').fill('Cable frayed');
    await slip.getByText('At a time').tap();
    await slip.getByLabel('Back on').fill('2026-03-13');
    await faultless(page, 'closure-phone-day');
    await slip.getByRole('button', { name: 'Take out of service' }).tap();
    await said(page, /Bay 3, Back wall is out of service\./);
    const entry = part(page, 'Out of service').locator('.entry');
    await entry.getByText('Wednesday 11 March, 10:37 to Friday 13 March, 17:00').waitFor();
    await faultless(page, 'phone-day');
    await entry.getByRole('button', { name: /Change the end/ }).tap();
    await page.getByRole('dialog').getByText('Nobody knows yet').tap();
    await page.getByRole('dialog').getByRole('button', { name: 'Change the end' }).tap();
    await entry.getByText('From Wednesday 11 March, 10:37; nobody knows until when').waitFor();
    shop.clock.passMinutes(30);
    await page.clock.setFixedTime('2026-03-11T11:07:00-04:00');
    await entry.getByRole('button', { name: /Back in service/ }).tap();
    await said(page, /Bay 3, Back wall is back\./);
    await entry.getByText('Wednesday 11 March, 10:37 to 11:07').waitFor();
    expect(await entry.getByRole('button').count()).toBe(0);
    await faultless(page, 'phone-over-day');
  }, 90_000);

  it('lets the manager close a day and open it again; what another records appears by itself', async () => {
    const page = await times(/Orla/, { ...DESK, light: 'dim', now: '2026-03-11T11:10:00-04:00' });
    await page.getByRole('button', { name: 'Close a day' }).click();
    const slip = page.getByRole('dialog');
    await slip.getByLabel('Day').fill('2026-04-03');
    await slip.getByLabel('Why').fill('Spring fair');
    await slip.getByRole('button', { name: 'Close the shop on that day' }).click();
    await slip.getByText('The shop is closed on 2026-04-03 already: Stock taking.').waitFor();
    await slip.getByLabel('Day').fill('2026-04-06');
    await slip.getByRole('button', { name: 'Close the shop on that day' }).click();
    await said(page, 'The shop is closed on Monday 6 April.');
    await orla.post('/closed-days', { day: '2026-04-07', name: 'Spring fair, too' }).expect(201);
    await part(page, 'Shop closed').getByText('Spring fair, too').waitFor();
    await faultless(page, 'desk-dim');
    await page.getByRole('button', { name: /Open on that day.*Monday 6 April/ }).click();
    await said(page, 'The shop is open on Monday 6 April.');
    await page.getByRole('button', { name: 'Four weeks later' }).click();
    await part(page, 'Away').getByText('Nobody is away.').waitFor();
  }, 90_000);

  it('lets a technician read, and nothing else', async () => {
    const page = await times(/Saffi/, { ...PHONE, width: 320, light: 'dim' });
    await part(page, 'Away').getByText('Mattis').first().waitFor();
    expect(await page.getByRole('main').getByRole('button').count()).toBe(0);
    await faultless(page, 'small-phone-dim');
  }, 90_000);

  it('needs at most 90 KiB of script before it can be read', () => {
    const web = resolve(import.meta.dirname, '../../dist/web');
    const html = readFileSync(resolve(web, 'calendar.html'), 'utf8');
    const first = [...html.matchAll(/(?:src|href)="\/(assets\/[^"]+\.js)"/g)].map((match) => match[1] ?? '');
    const sizes = first.map((file) => gzipSync(readFileSync(resolve(web, file)), { level: 9 }).length);
    const kib = sizes.reduce((sum, size) => sum + size, 0) / 1024;
    expect(first.length).toBeGreaterThan(2);
    expect(kib).toBeLessThanOrEqual(90);
  });
});
