import type { Browser, Page } from 'playwright-core';
import { type OpenPage, type Screen, openPage } from './browser.js';
import { NOW, PASSWORD, accounts, workOrderId } from './mock-data.js';

/** Small steps that the pages' tests share, in the words of the person at the screen. */
export const DESK: Screen = { width: 1440, height: 900, now: NOW };
export const TABLET: Screen = { width: 1180, height: 820, touch: true, now: NOW };
export const PHONE: Screen = { width: 390, height: 844, touch: true, now: NOW };

export async function signIn(page: Page, name: string): Promise<void> {
  const who = accounts.find((one) => one.displayName.startsWith(name));
  await page.goto('/sign-in');
  await fillIn(page, who?.email ?? '');
  await page.waitForURL('**/board');
}

/** The page at an address in a browser that has signed in; what leads there has its own tests. */
export async function openSigned(page: Page, address: string, name: string): Promise<void> {
  const who = accounts.find((one) => one.displayName.startsWith(name));
  const data = { email: who?.email ?? '', password: PASSWORD, delivery: 'cookie' };
  const answer = await page.context().request.post('/api/v1/sessions', { data });
  if (!answer.ok()) throw new Error(`${name} cannot sign in: ${await answer.text()}`);
  // Once, so that a page can sign out again.
  await page.addInitScript(() => {
    if (sessionStorage.getItem('let-in') !== null) return;
    sessionStorage.setItem('let-in', '1');
    localStorage.setItem('bayledger.signed-in', '1');
  });
  await page.goto(address);
}

export async function fillIn(page: Page, email: string): Promise<void> {
  await page.getByLabel('E-mail').fill(email);
  await page.getByLabel('Password').fill(PASSWORD);
  await page.getByRole('button', { name: 'Sign in' }).click();
}

/** The board as somebody sees it: signed in, read, and the line open. */
export async function boardOf(
  browser: Browser,
  origin: string,
  name: string,
  screen = DESK,
): Promise<OpenPage> {
  const opened = await openPage(browser, origin, screen);
  await openSigned(opened.page, '/board', name);
  // The hints at the foot come with the code that picks tickets up.
  await opened.page.locator('.status-line .keys, .row').first().waitFor({ state: 'attached' });
  return opened;
}

export const ticket = (page: Page, number: number): ReturnType<Page['locator']> =>
  page.locator(`.track [data-ticket="${workOrderId(number)}"]`);
export const trayTicket = (page: Page, number: number): ReturnType<Page['locator']> =>
  page.locator(`.tray [data-ticket="${workOrderId(number)}"]`);
/** What the page said last. */
export const said = (page: Page): ReturnType<Page['locator']> => page.locator('.status-line .say');

/** A point of a bay's lane at a time, for the mouse or a finger; the test day runs from 07:30 to 17:30. */
export async function pointOf(page: Page, bay: number, time: string): Promise<{ x: number; y: number }> {
  const box = await page
    .locator('.track')
    .nth(bay - 1)
    .boundingBox();
  if (!box) throw new Error(`bay ${bay} is not on the screen`);
  const [hours = 0, minutes = 0] = time.split(':').map(Number);
  return { x: box.x + ((hours + minutes / 60 - 7.5) / 10) * box.width, y: box.y + box.height / 2 };
}

/** Waits for something that happens outside the page. */
export async function until(happened: () => boolean): Promise<void> {
  for (let n = 0; n < 100 && !happened(); n += 1) await new Promise((done) => setTimeout(done, 50));
  expect(happened()).toBe(true);
}
