import type { Browser, Page } from 'playwright-core';
import {
  type Screen,
  accessibilityFaults,
  layoutShift,
  openBrowser,
  openPage,
  shoot,
  sidewaysScroll,
} from './browser.js';
import { MockServer } from './mock-server.js';
import { DESK, PHONE, boardOf, ticket } from './page-steps.js';

/** Every page on every kind of screen: kept as a picture, scanned for accessibility, no sideways scroll, no jumping. */
let browser: Browser;
let mock: MockServer;
let origin: string;

beforeAll(async () => {
  browser = await openBrowser();
}, 60_000);
afterAll(() => browser.close());
beforeEach(async () => {
  mock = new MockServer();
  origin = await mock.start();
});
afterEach(() => mock.stop());

async function inspect(page: Page, name: string, fullPage = false): Promise<void> {
  await shoot(page, name, fullPage);
  expect(await sidewaysScroll(page)).toBe(0);
  expect(await accessibilityFaults(page)).toEqual([]);
}

const screens: readonly [string, Screen][] = [
  ['desk-day', DESK],
  ['desk-dim', { ...DESK, light: 'dim' }],
  ['tablet-day', { width: 1180, height: 820, touch: true, now: DESK.now ?? '' }],
  ['tablet-upright-day', { width: 820, height: 1180, touch: true, now: DESK.now ?? '' }],
  ['phone-day', PHONE],
  ['phone-dim', { ...PHONE, light: 'dim' }],
  ['small-phone-day', { ...PHONE, width: 320, height: 640 }],
  ['wall-dim', { width: 1920, height: 1080, light: 'dim', now: DESK.now ?? '' }],
];

describe('the job board on every screen', () => {
  it.each(screens)('on the %s', async (name, screen) => {
    const { page, context, errors } = await boardOf(browser, origin, 'Nell', screen);
    await inspect(page, `board-${name}`, screen.width < 900);
    expect(await layoutShift(page)).toBeLessThan(0.02);
    expect(errors).toEqual([]);
    await context.close();
  });

  it('shows an open ticket, the form to assign it, and the reasons for a pause', async () => {
    const desk = await boardOf(browser, origin, 'Nell');
    await ticket(desk.page, 2490).click();
    await desk.page.getByRole('dialog').waitFor();
    await inspect(desk.page, 'ticket-desk-day');
    await desk.page.getByRole('button', { name: 'Change bay, time or technician' }).click();
    await inspect(desk.page, 'ticket-assign-desk-day');
    await desk.context.close();
    for (const [name, screen] of [
      ['phone-day', PHONE],
      ['desk-dim', { ...DESK, light: 'dim' as const }],
    ] as const) {
      const { page, context } = await boardOf(browser, origin, 'Bram', screen);
      await page.getByRole('button', { name: /2481/ }).first().click();
      await page.getByRole('dialog').waitFor();
      await inspect(page, `ticket-${name}`);
      await page.getByRole('dialog').getByRole('button', { name: 'Pause' }).click();
      await inspect(page, `ticket-pause-${name}`);
      await context.close();
    }
  });
});

const doors = screens.filter(([name]) => !['tablet-upright-day', 'wall-dim'].includes(name));

describe('the sign-in page on every screen that people sign in at', () => {
  it.each(doors)('on the %s', async (name, screen) => {
    const { page, context, errors } = await openPage(browser, origin, screen);
    await page.goto('/sign-in');
    await page.getByRole('heading', { name: 'Demo people' }).waitFor();
    await inspect(page, `sign-in-${name}`);
    expect(await layoutShift(page)).toBeLessThan(0.02);
    mock.devices.add('tablet');
    await page.evaluate(() => {
      localStorage.setItem('bayledger.device-token', 'tablet');
      localStorage.setItem('bayledger.device-name', 'Bay 1');
      localStorage.setItem('bayledger.device-shop', 'Tamarind Street Garage');
    });
    await page.reload();
    await page.getByRole('button', { name: 'Saffi Renqvist' }).click({ trial: true });
    await inspect(page, `tablet-people-${name}`);
    await page.getByRole('button', { name: 'Saffi Renqvist' }).click();
    await page.getByRole('button', { name: '4' }).click();
    await inspect(page, `tablet-pin-${name}`);
    expect(errors).toEqual([]);
    await context.close();
  });
});
