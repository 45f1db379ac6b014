import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { demoShop, type DemoShop } from '../support/demo-shop.js';
import type { Person } from '../support/shop-under-test.js';
import { accessibilityFaults, openBrowser, openPage, shoot, sidewaysScroll, type Screen } from './browser.js';

// A Wednesday in the middle of the morning in the demonstration shop's zone.
const NOW = '2026-03-11T10:37:00-04:00';
const later = (minutes: number): Date => new Date(Date.parse(NOW) + minutes * 60_000);
const DESK: Screen = { width: 1440, height: 900, now: NOW };
const PHONE: Screen = { width: 390, height: 844, touch: true, now: NOW };
const BUDGET_KIB = 90;

/** One shop, its real server, and the desk's calls of a morning; every test goes on where the last one ended. */
describe('the desk answers "when?" with the phone at the ear', () => {
  let shop: DemoShop;
  let browser: Browser;
  let wenna: Person;
  let page: Page;
  const errors: string[] = [];
  const contexts: BrowserContext[] = [];

  beforeAll(async () => {
    [shop, browser] = await Promise.all([demoShop(NOW), openBrowser()]);
    wenna = await shop.signIn('wenna@kestrelyard.example', 'front-desk-demo');
    page = await opened(DESK);
  }, 120_000);
  afterAll(async () => {
    for (const context of contexts) await context.close();
    await browser.close();
    await shop.stop();
  });
  afterEach(() => {
    expect(errors.splice(0)).toEqual([]);
  });

  async function opened(screen: Screen): Promise<Page> {
    const made = await openPage(browser, shop.url, screen);
    contexts.push(made.context);
    made.page.on('pageerror', (error) => errors.push(String(error)));
    made.page.on('console', (message) => {
      if (message.type() === 'error' && !message.text().startsWith('Failed to load'))
        errors.push(message.text());
    });
    await made.page.goto('/when');
    await made.page.getByRole('button', { name: /Wenna Tarle/ }).click();
    await made.page.getByRole('button', { name: 'Sign in' }).click();
    await made.page.waitForURL('**/when');
    await made.page.getByRole('combobox', { name: 'Which vehicle?' }).waitFor();
    return made.page;
  }
  const faultless = async (on: Page, name: string): Promise<void> => {
    expect([name, await accessibilityFaults(on)]).toEqual([name, []]);
    expect([name, await sidewaysScroll(on)]).toEqual([name, 0]);
    await shoot(on, `when-${name}`, true);
  };
  const reservations = async () =>
    (await wenna.get('/reservations').expect(200)).body.items as { number: number; state: string }[];

  it('is asked by keys alone, holds an offer, and takes it', async () => {
    await page.keyboard.type('a grey Corvane estate');
    await page.keyboard.press('Tab');
    await page.keyboard.type('1450');
    await page.keyboard.press('Tab');
    await page.keyboard.type('brakes at the front 2.5 h lift');
    await page.getByRole('option', { name: /Brakes at the front/ }).waitFor();
    await shoot(page, 'when-desk-typing');
    await page.keyboard.press('Enter');
    await page.getByText('about 2.5 h, on a lift').waitFor();
    await page.keyboard.press('Enter');
    const offer = page.getByRole('button', { name: /Bring it Wed/ }).first();
    await offer.waitFor();
    expect(await offer.evaluate((button) => button === document.activeElement)).toBe(true);
    expect(await offer.textContent()).toMatch(
      /ready about \d\d:\d\d, in four of five cases by .*; nothing moves\./,
    );
    await faultless(page, 'desk-offers-day');
    expect(await reservations()).toEqual([]);
    await page.keyboard.press('Enter');
    await page.getByText('Reserved until 10:52 by Wenna Tarle.').first().waitFor();
    await page.getByText('15 minutes left.').waitFor();
    await faultless(page, 'desk-held-day');
    await page.clock.setFixedTime(later(3));
    await page.getByText('Twelve minutes left.').waitFor();
    await page.getByRole('textbox', { name: 'Phone' }).fill('+1 202 555 0111');
    await page.getByRole('button', { name: 'Take it' }).click();
    await page.getByText('Say who comes.').waitFor();
    expect(await page.getByRole('textbox', { name: 'Phone' }).inputValue()).toBe('+1 202 555 0111');
    await page.getByRole('textbox', { name: 'Who comes?' }).fill('Ines Halloway');
    await page.keyboard.press('Enter');
    await page
      .getByRole('region', { name: 'Kept places' })
      .getByText(/Kept for Ines Halloway: comes/)
      .waitFor();
    expect(await reservations()).toMatchObject([{ number: 1, state: 'taken' }]);
    expect(await page.getByRole('combobox', { name: 'Which vehicle?' }).inputValue()).toBe('');
    await faultless(page, 'desk-kept-day');
    await page.clock.setFixedTime(NOW);
  }, 90_000);

  it('knows the cars of the shop and its catalogue, and says why there is no place', async () => {
    const [known] = (await wenna.get('/vehicles?limit=1').expect(200)).body.items;
    await page.getByRole('combobox', { name: 'Which vehicle?' }).fill(known.plate);
    await page.getByRole('option', { name: new RegExp(known.plate) }).click();
    await page.getByRole('button', { name: 'Another vehicle' }).click();
    await page.getByRole('combobox', { name: 'Which vehicle?' }).fill('an old bus');
    await page.getByRole('textbox', { name: 'Weight in kg' }).fill('9800');
    await page.getByRole('combobox', { name: 'What is to be done?' }).fill('pads');
    await page
      .getByRole('listbox', { name: 'Found: What is to be done?' })
      .getByRole('option')
      .first()
      .click();
    await page.getByRole('combobox', { name: /Where:/ }).selectOption('front');
    await page.getByRole('button', { name: 'When?' }).click();
    await page
      .getByRole('region', { name: 'What can be said' })
      .getByText(/The vehicle weighs 9800 kg; the strongest lift .* is rated for/)
      .waitFor();
    await faultless(page, 'desk-no-place-day');
    await page.getByRole('textbox', { name: 'Weight in kg' }).fill('12');
    await page.getByRole('button', { name: 'When?' }).click();
    await page.getByText('Give a whole number from 100 to 60000, in kg.').waitFor();
    expect(await page.getByRole('combobox', { name: 'Which vehicle?' }).inputValue()).toBe('an old bus');
  }, 60_000);

  it('tells when somebody else was faster, and when the time is over, and keeps what was typed', async () => {
    await page.getByRole('textbox', { name: 'Weight in kg' }).fill('1300');
    await page.getByRole('checkbox', { name: 'Today' }).check();
    await page.getByRole('button', { name: 'When?' }).click();
    const offer = page.getByRole('button', { name: /Bring it/ }).first();
    await offer.waitFor();
    const [operation] = (await wenna.get('/operations?q=pads&limit=1').expect(200)).body.items;
    const question = {
      ...{ weightKg: 1300, brought: [{ day: '2026-03-11' }] },
      work: [{ operationId: operation.id, positions: ['front'] }],
    };
    const same = (await wenna.post('/plan/offers', question).expect(200)).body.offers[0];
    const places = same.places.map(
      ({ work, bayId, technicianId, startsAt, endsAt }: Record<string, string>) => ({
        ...{ work, bayId, technicianId, startsAt, endsAt },
      }),
    );
    await wenna
      .post('/reservations', { weightKg: 1300, work: question.work, arrivesAt: same.arrivesAt, places })
      .expect(201);
    await offer.click();
    await page
      .getByRole('alert')
      .getByText(/is reserved until .* by Wenna Tarle\. Ask again/)
      .waitFor();
    await shoot(page, 'when-desk-too-late');
    const before = await offer.textContent();
    await page.getByRole('button', { name: 'When?' }).click();
    const next = page.getByRole('button', { name: /Bring it/ }).filter({ hasNotText: before ?? '' });
    await next.first().click();
    await page.getByRole('heading', { name: /Reservation 3/ }).waitFor();
    await page.clock.setFixedTime(later(60));
    await page
      .getByText(/The time is over: the place is free/)
      .first()
      .waitFor();
    expect(await page.getByRole('textbox', { name: 'Weight in kg' }).inputValue()).toBe('1300');
  }, 60_000);

  it.each([
    ['phone-day', PHONE],
    ['phone-dim', { ...PHONE, light: 'dim' as const }],
    ['desk-dim', { ...DESK, touch: false, light: 'dim' as const }],
  ])(
    'stands on the %s',
    async (name, screen) => {
      const other = await opened(screen);
      await other.getByRole('textbox', { name: 'Weight in kg' }).fill('1450');
      await other.getByRole('combobox', { name: 'What is to be done?' }).fill('noise at the rear 1 h lift');
      await other.getByRole('option', { name: /Noise at the rear/ }).click();
      await other.getByRole('button', { name: 'When?' }).click();
      await other
        .getByRole('button', { name: /Bring it/ })
        .first()
        .waitFor();
      expect(await other.getByText('asks, and holds an offer').isVisible()).toBe(screen.touch !== true);
      await faultless(other, name);
      await other
        .getByRole('button', { name: /Bring it/ })
        .first()
        .click();
      await other.getByRole('textbox', { name: 'Who comes?' }).waitFor();
      await faultless(other, `${name}-held`);
      await other.getByRole('button', { name: 'Give it back' }).click();
      await other.getByText('Given back: the place is free again.').waitFor();
      await other.getByRole('button', { name: /The car is here/ }).click();
      await other.getByRole('combobox', { name: /Which is a grey Corvane/ }).fill('nothing like it');
      await other.getByText('Not known here: write down what it is.').waitFor();
      await faultless(other, `${name}-take-in`);
      // Kept places stand on the board in words.
      await other.goto('/board');
      await other
        .getByText(/Kept for Ines Halloway, a grey Corvane estate: Brakes at the front/)
        .first()
        .waitFor();
      await faultless(other, `${name}-board`);
    },
    60_000,
  );

  it('opens the repair order of a car that has come on what was kept for it', async () => {
    const held = (await wenna.get('/reservations').expect(200)).body.items.find(
      ({ customerName }: { customerName: string }) => customerName === 'Ines Halloway',
    );
    const row = page.getByRole('listitem').filter({ hasText: 'Kept for Ines Halloway' });
    await row.getByRole('button', { name: /The car is here/ }).click();
    const form = page.getByRole('form', { name: `Repair order for reservation ${held.number}` });
    await form.getByRole('button', { name: 'Open its repair order' }).click();
    await form
      .getByText(/^Give a text of 1 to/)
      .first()
      .waitFor();
    await form.getByRole('textbox', { name: 'Or new here: make' }).fill('Corvane');
    await form.getByRole('textbox', { name: 'Model' }).fill('Estate');
    await form.getByRole('textbox', { name: 'Plate' }).fill('KZ 77');
    await form.getByRole('button', { name: 'Open its repair order' }).click();
    await form.getByText(/^Give a whole number/).waitFor();
    await faultless(page, 'desk-take-in-day');
    await form.getByRole('textbox', { name: 'What is wrong, in their words' }).fill('It grinds when braking');
    await form.getByRole('textbox', { name: 'Odometer' }).fill('188 400');
    await form.getByRole('button', { name: 'Open its repair order' }).click();
    await page.getByText(/Repair order \d+ was opened on reservation/).waitFor();
    await page
      .getByRole('listitem')
      .getByText(/Ines Halloway has come: repair order/)
      .waitFor();
    const after = (await wenna.get(`/reservations/${held.id}`).expect(200)).body;
    const order = (await wenna.get(`/repair-orders/${after.repairOrderId}`).expect(200)).body;
    expect(order).toMatchObject({
      ...{ promisedAt: held.promisedAt, odometerIn: 188_400, reservation: { id: held.id } },
      vehicle: { make: 'Corvane', plate: 'KZ 77', weightKg: 1450 },
      customer: { displayName: 'Ines Halloway' },
    });
    // What was refused before has made no second record of the customer.
    const named = (await wenna.get('/customers?q=Halloway').expect(200)).body.items;
    expect(named).toHaveLength(1);
  }, 60_000);

  it(`needs at most ${BUDGET_KIB} KiB of script, gzipped`, () => {
    const web = resolve(import.meta.dirname, '../../dist/web');
    const html = readFileSync(resolve(web, 'when.html'), 'utf8');
    const files = [...html.matchAll(/(?:src|href)="(\/[^"]+\.js)"/g)].map((match) => match[1] ?? '');
    const bytes = files.reduce(
      (sum, file) => sum + gzipSync(readFileSync(resolve(web, file.slice(1)))).length,
      0,
    );
    console.log(`when: ${(bytes / 1024).toFixed(1)} KiB of script in ${files.length} files`);
    expect(files.length).toBeGreaterThan(1);
    expect(bytes / 1024).toBeLessThan(BUDGET_KIB);
  });
});
