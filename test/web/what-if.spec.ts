import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Browser, Page } from 'playwright-core';
import { accessibilityFaults, openBrowser, openPage, type Screen, shoot, sidewaysScroll } from './browser.js';
import { MockServer } from './mock-server.js';
import { answered } from './mock-what-if.js';
import { id } from './mock-data.js';
import { DESK, PHONE, openSigned, until } from './page-steps.js';

let browser: Browser;
let mock: MockServer;
let origin: string;
let closing: (() => Promise<void>)[] = [];
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

async function whatIfPage(screen: Screen = DESK): Promise<Page> {
  const { page, context, errors } = await openPage(browser, origin, screen);
  closing.push(async () => {
    expect(errors).toEqual([]);
    await context.close();
  });
  await openSigned(page, '/what-if', 'Ines');
  await page.getByRole('heading', { level: 1 }).waitFor();
  return page;
}

describe('what if', () => {
  it('tells for every alternative what would be different, in words before bars', async () => {
    const page = await whatIfPage();
    const technician = page.getByRole('article', { name: 'One more technician like Dov Marrec' });
    const told = await technician.textContent();
    for (const words of [
      '72.4 fewer hours late',
      '12.5 more of 100 kept',
      '1.3 more cars',
      'No sure difference',
    ])
      expect(told).toContain(words);
    const lift = await page.getByRole('article', { name: 'One more bay like Middle' }).textContent();
    expect(lift).toContain('38.9 more hours idle');
    expect(lift).toContain('technicians work 91 % of theirs');
    expect(await page.getByLabel('The shop as it is', { exact: true }).textContent()).toContain(
      '113.6 hours past promises a week',
    );
    await page.getByText('142 repair orders of the last 90 days').waitFor();
    await page.getByText('Every week is the same').waitFor();
    await shoot(page, 'what-if-desk', true);
  });

  it('asks for several things at once, two of them together, and shows the answer when it comes', async () => {
    const page = await whatIfPage();
    await page.getByLabel('Which').selectOption({ label: 'Front right' });
    await page.getByRole('button', { name: 'Compare this' }).click();
    await page.getByLabel('What would be different').selectOption({ label: 'One more technician like …' });
    await page.getByLabel('Which').selectOption({ label: 'Saffi Renqvist' });
    await page.getByRole('button', { name: 'Together with the last one' }).click();
    await page.getByLabel('What would be different').selectOption({ label: 'Open on one more day' });
    await page.getByLabel('To', { exact: true }).fill('07:00');
    await page.getByText('It must be later than the opening.').waitFor();
    expect(await page.getByRole('button', { name: 'Compare this' }).isDisabled()).toBe(true);
    await page.getByLabel('To', { exact: true }).fill('13:00');
    await page.getByRole('button', { name: 'Compare this' }).click();
    await page.getByLabel('Different years').selectOption('3');
    await page.getByRole('button', { name: 'Replay the work' }).click();
    await page.getByRole('heading', { name: 'Waiting for its turn' }).waitFor();
    await page.getByText('for the shop as it is and for each of 2 alternatives.').waitFor();
    expect(
      mock.calls.findLast(({ path, method }) => method === 'POST' && path.endsWith('/what-ifs'))?.body,
    ).toEqual({
      alternatives: [
        {
          changes: [
            { kind: 'bay', id: id(2, 2) },
            { kind: 'technician', id: id(1, 12) },
          ],
        },
        { changes: [{ kind: 'day-open', weekday: 6, fromMinute: 480, toMinute: 780 }] },
      ],
      ...{ weeks: 26, years: 3 },
    });
    await until(() => mock.openStreams === 1);
    mock.whatIfs.splice(0, 1, answered(2, { state: 'running', asked: ['One more bay like Front left'] }));
    mock.emit('what-if', 1, { whatIfId: answered(2).id });
    await page.getByText('for the shop as it is and for one alternative.').waitFor();
    mock.whatIfs.splice(0, 1, answered(2));
    mock.emit('what-if', 2, { whatIfId: answered(2).id });
    await page.getByRole('heading', { name: 'What came of it' }).waitFor();
  });

  it('says why it was refused, and why there is no answer', async () => {
    mock.whatIfs.splice(0, 1, answered(1, { state: 'failed', failedReason: 'Ask again, with fewer weeks.' }));
    const page = await whatIfPage();
    await page.getByText('Ask again, with fewer weeks.').waitFor();
    mock.refuse({
      ...{ method: 'POST', path: /\/what-ifs$/, status: 422 },
      problem: {
        ...{ code: 'request-invalid', detail: 'That would take too long.' },
        fields: [{ pointer: '/weeks', detail: 'Ask for fewer weeks.' }],
      },
    });
    await page.getByRole('button', { name: 'Compare this' }).click();
    await page.getByRole('button', { name: 'Replay the work' }).click();
    await page.getByRole('alert').getByText('That would take too long. Ask for fewer weeks.').waitFor();
    await page.getByRole('button', { name: /^Take out: One more bay like Front left/ }).click();
    expect(await page.getByRole('button', { name: 'Replay the work' }).isDisabled()).toBe(true);
  });

  it('can be read by everybody: no serious fault of access, no sideways scroll, day and dim, desk and phone', async () => {
    for (const screen of [DESK, PHONE, { ...DESK, light: 'dim' } as const]) {
      const page = await whatIfPage(screen);
      await page.getByRole('heading', { name: 'What came of it' }).waitFor();
      expect(await accessibilityFaults(page)).toEqual([]);
      expect(await sidewaysScroll(page)).toBe(0);
      await shoot(page, `what-if-${screen.width}-${'light' in screen ? 'dim' : 'day'}`, true);
    }
  }, 40_000);

  it('needs at most 90 KiB of script before it can be read', () => {
    const web = resolve(import.meta.dirname, '../../dist/web');
    const html = readFileSync(resolve(web, 'what-if.html'), 'utf8');
    const first = [...html.matchAll(/(?:src|href)="\/(assets\/[^"]+\.js)"/g)].map((match) => match[1] ?? '');
    const sizes = first.map((file) => gzipSync(readFileSync(resolve(web, file)), { level: 9 }).length);
    expect(first.length).toBeGreaterThan(2);
    expect(sizes.reduce((sum, size) => sum + size, 0)).toBeLessThanOrEqual(90 * 1024);
  });
});
