import type { Browser, Page } from 'playwright-core';
import { type Screen, openBrowser, openPage, shoot } from './browser.js';
import { NOW, PASSWORD, PIN, accounts } from './mock-data.js';
import { MockServer } from './mock-server.js';
import { DESK, TABLET, fillIn, signIn } from './page-steps.js';

let browser: Browser;
let mock: MockServer;
let origin: string;
let closing: (() => Promise<void>)[];

beforeAll(async () => {
  browser = await openBrowser();
}, 60_000);
afterAll(() => browser.close());
beforeEach(async () => {
  mock = new MockServer();
  origin = await mock.start();
  closing = [];
});
afterEach(async () => {
  for (const close of closing) await close();
  await mock.stop();
});

async function freshPage(screen: Screen = DESK): Promise<Page> {
  const { page, context, errors } = await openPage(browser, origin, screen);
  closing.push(async () => {
    expect(errors).toEqual([]);
    await context.close();
  });
  return page;
}

/** A tablet that a manager has enrolled and left. */
async function enrolledTablet(): Promise<Page> {
  const page = await freshPage(TABLET);
  await signIn(page, 'Ines');
  await page.getByRole('link', { name: /Ines Okorie/ }).click();
  await page.getByLabel('Its name').fill('Bay 1');
  await shoot(page, 'sign-in-enrol-tablet-day');
  await page.getByRole('button', { name: 'Enrol this tablet' }).click();
  await page.getByText('Enrolled as Bay 1.').waitFor();
  await page.getByRole('button', { name: 'Sign out' }).click();
  await page.getByRole('heading', { name: 'Who are you?' }).waitFor();
  return page;
}

async function typePin(page: Page, pin: string): Promise<void> {
  for (const digit of pin) await page.getByRole('button', { name: digit, exact: true }).tap();
}

describe('signing in with e-mail and password', () => {
  it('leads to the board, and a reload needs no second time', async () => {
    const page = await freshPage();
    await signIn(page, 'Nell');
    await page.getByText('Nell Farrow').waitFor();
    await page.reload();
    await page.getByText('Nell Farrow').waitFor();
    expect(new URL(page.url()).pathname).toBe('/board');
  });

  it('leads a stranger to the sign-in page, and from there to the address that was asked for', async () => {
    const page = await freshPage();
    await page.goto('/plan?from=a-letter');
    await page.waitForURL('**/sign-in?why=nobody&next=*');
    await fillIn(page, 'nell@tamarind.example');
    await page.waitForURL('**/plan?from=a-letter');
    await page.getByRole('link', { name: /Nell Farrow/ }).waitFor();
    expect(new URL(page.url()).search).toBe('?from=a-letter');
  });

  it('keeps no token where a script or the next person could find it', async () => {
    const page = await freshPage();
    await signIn(page, 'Nell');
    await page.getByText('Nell Farrow').waitFor();
    const kept = await page.evaluate(() =>
      JSON.stringify([{ ...localStorage }, { ...sessionStorage }, document.cookie]),
    );
    expect(kept).not.toMatch(/access-|refresh-/);
  });

  it('fills in the form for a demo person; one more press signs in', async () => {
    const page = await freshPage();
    await page.goto('/sign-in');
    await page.getByRole('button', { name: /Ines Okorie/ }).click();
    expect(await page.getByLabel('E-mail').inputValue()).toBe('ines@tamarind.example');
    await page.keyboard.press('Enter');
    await page.waitForURL('**/board');
  });

  it('shows no demo people where the server names none', async () => {
    mock.showsDemo = false;
    const page = await freshPage();
    await page.goto('/sign-in');
    await page.getByRole('button', { name: 'Sign in' }).waitFor();
    expect(await page.getByText('Demo people').count()).toBe(0);
  });

  it.each([
    [401, { code: 'wrong-credentials' }, 'E-mail and password do not belong together.'],
    [
      429,
      { code: 'too-many-tries', retryAfterSeconds: 300 },
      'Locked for now, after too many tries. Try again in 5 minutes.',
    ],
    [
      503,
      { code: 'starting', detail: 'The server is starting.' },
      'Signing in did not work. The server is starting.',
    ],
  ])('says clearly why not, and what to do: %i', async (status, problem, words) => {
    mock.refuse({ method: 'POST', path: /\/sessions$/, status, problem });
    const page = await freshPage();
    await page.goto('/sign-in');
    await page.getByLabel('E-mail').fill('nell@tamarind.example');
    await page.getByLabel('Password').fill(PASSWORD);
    await page.getByRole('button', { name: 'Sign in' }).click();
    await page.getByRole('alert').getByText(words).waitFor();
    expect(await page.getByLabel('E-mail').inputValue()).toBe('nell@tamarind.example');
    await page.getByRole('button', { name: 'Sign in' }).click();
    await page.waitForURL('**/board');
  });

  it('puts the reason under the field that the server names', async () => {
    const fields = [{ pointer: '/email', detail: 'Write the whole address.' }];
    mock.refuse({
      method: 'POST',
      path: /\/sessions$/,
      status: 422,
      problem: { code: 'invalid', detail: 'Check the form.', fields },
    });
    const page = await freshPage();
    await page.goto('/sign-in');
    await page.getByLabel('E-mail').fill('nell@tamarind');
    await page.getByLabel('Password').fill('x');
    await page.getByRole('button', { name: 'Sign in' }).click();
    await page.getByText('Write the whole address.').waitFor();
    expect(await page.getByLabel('E-mail').getAttribute('aria-invalid')).toBe('true');
  });

  it('says when the server cannot be reached', async () => {
    const page = await freshPage();
    await page.goto('/sign-in');
    await page.getByText('Demo people').waitFor();
    await page.getByRole('button', { name: /Nell Farrow/ }).click();
    mock.cutLine();
    await page.getByRole('button', { name: 'Sign in' }).click();
    await page.getByRole('alert').getByText('The server does not answer.').waitFor();
    expect(await page.getByLabel('E-mail').inputValue()).toBe('nell@tamarind.example');
  });

  it('signs out here and in the other tabs of this browser', async () => {
    const page = await freshPage();
    await signIn(page, 'Nell');
    const other = await page.context().newPage();
    await other.clock.setFixedTime(NOW);
    await other.goto('/board');
    await other.getByText('Nell Farrow').waitFor();
    await page.getByRole('button', { name: 'Sign out' }).click();
    await page.waitForURL('**/sign-in?why=left');
    await other.waitForURL('**/sign-in?why=left');
    expect(await other.getByRole('link', { name: /Nell Farrow/ }).count()).toBe(0);
  });

  it('lets the tabs of one browser renew their session one after the other', async () => {
    const page = await freshPage();
    await signIn(page, 'Nell');
    await page.getByText('Nell Farrow').waitFor();
    const before = mock.calls.length;
    const tabs = [page, await page.context().newPage(), await page.context().newPage()];
    mock.delayMs = 80;
    await Promise.all(tabs.map((tab) => tab.goto('/board')));
    for (const tab of tabs) await tab.getByText('Nell Farrow').waitFor();
    const renewals = mock.calls.slice(before).filter(({ path }) => path.endsWith('/sessions/refresh'));
    expect(renewals).toHaveLength(3);
    expect(new Set(renewals.map(({ headers }) => headers.cookie)).size).toBe(3);
  });

  it('stays signed in when a page is left before it hears of its renewed session', async () => {
    const page = await freshPage();
    await signIn(page, 'Nell');
    await page.getByText('Nell Farrow').waitFor();
    mock.delayMs = 400;
    const renewing = page.waitForRequest('**/sessions/refresh');
    await page.reload();
    await renewing;
    await page.goto('/plan');
    await page.getByRole('link', { name: /Nell Farrow/ }).waitFor();
    expect(new URL(page.url()).pathname).toBe('/plan');
  });
});

describe('signing in on a bay tablet', () => {
  it('is enrolled by a manager, then asks for a name and a PIN with targets for gloves', async () => {
    const page = await enrolledTablet();
    await page.getByRole('button', { name: 'Bram Tollan' }).tap();
    const sizes = await page
      .locator('.digits button')
      .evaluateAll((buttons) =>
        buttons.map((button) =>
          Math.min(button.getBoundingClientRect().width, button.getBoundingClientRect().height),
        ),
      );
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(72);
    await typePin(page, '1111');
    await page.getByRole('button', { name: 'Sign in' }).tap();
    await page.getByRole('alert').getByText('That PIN is not right.').waitFor();
    await typePin(page, PIN);
    await page.getByRole('button', { name: 'Sign in' }).tap();
    await page.waitForURL('**/board');
    await page.getByRole('link', { name: /Bram Tollan/ }).waitFor();
  });

  it('takes the PIN from a keyboard as well', async () => {
    const page = await enrolledTablet();
    await page.getByRole('button', { name: 'Dov Marrec' }).click();
    await page.keyboard.type(`9${PIN}`);
    for (let n = 0; n < 5; n += 1) await page.keyboard.press('Backspace');
    await page.keyboard.type(PIN);
    await page.keyboard.press('Enter');
    await page.waitForURL('**/board');
    await page.getByText('Dov Marrec').first().waitFor();
    expect(new URL(page.url()).pathname).toBe('/board');
  });

  it('offers only people with a PIN, and the password to everybody else', async () => {
    const page = await enrolledTablet();
    const technicians = accounts.filter((one) => one.role === 'technician').length;
    await page.locator('.people button').first().waitFor();
    expect(await page.locator('.people button').count()).toBe(technicians);
    await page.getByRole('button', { name: 'Use e-mail and password' }).tap();
    await page.getByLabel('Password').waitFor();
    await page.getByRole('button', { name: 'Choose your name instead' }).tap();
    await page.getByRole('heading', { name: 'Who are you?' }).waitFor();
  });

  it('says so when the tablet was taken off the list, and lets a manager sign in', async () => {
    const page = await enrolledTablet();
    mock.devices.clear();
    await page.reload();
    await page.getByText('This tablet is not enrolled any more.').waitFor();
    await page.getByRole('button', { name: 'Sign in with a password' }).tap();
    await page.getByLabel('E-mail').waitFor();
    expect(await page.locator('.people').count()).toBe(0);
  });

  it('is not offered to somebody who does not manage', async () => {
    const page = await freshPage();
    await signIn(page, 'Nell');
    await page.getByRole('link', { name: /Nell Farrow/ }).click();
    await page.getByRole('button', { name: 'To the job board' }).waitFor();
    expect(await page.getByText('Enrol this tablet').count()).toBe(0);
  });
});
