import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Page } from 'playwright-core';
import { accessibilityFaults } from './browser.js';
import { DESK_1280, setUpEstimate } from './estimate-bench.js';
import { ORDER } from './mock-ids.js';
import { priced } from './mock-prices.js';
import { PHONE, until } from './page-steps.js';

const { estimate, mock } = setUpEstimate();

const total = (page: Page) => page.getByRole('status', { name: 'Total of what is chosen' });
const tick = (page: Page, title: string) =>
  page.locator('.tick').getByRole('checkbox', { name: title, exact: true });
const line = (page: Page, title: string) => page.getByRole('article', { name: title, exact: true });
const euros = (cents: number): string =>
  new Intl.NumberFormat('en-GB', { style: 'currency', currency: 'EUR' }).format(cents / 100);
/** What the mock says that the lines with these titles cost together. */
const together = (...titles: string[]): string => {
  const { lines } = mock().desk;
  const ids = lines.filter(({ title }) => titles.includes(title)).map(({ id }) => id);
  return euros(priced(lines, ids).totals.totalCents);
};
const asked = (end: string): number => mock().calls.filter(({ path }) => path.endsWith(end)).length;
const SUM = 'All in, tax included';

describe('choosing lines at the desk', () => {
  it('shows both figures of a line, the total and its parts, the value beside it and the range', async () => {
    const page = await estimate();
    await page.getByText('What moves it most').waitFor();
    expect(await total(page).textContent()).toBe(together(...mock().desk.lines.map(({ title }) => title)));
    const joint = await line(page, 'Front lower ball joint, left').textContent();
    for (const words of [
      'Unsafe',
      'If it waits:',
      'With what is chosen',
      'Alone',
      '€331.26',
      'If the clamp bolt shears:',
      'Chance 25 in 100',
      'Never more than €140.00',
    ])
      expect(joint).toContain(words);
    const tally = page.getByRole('complementary');
    for (const words of [
      '51 % of the value entered for the vehicle',
      'Half end below',
      '8 in 10 end below',
      'less than one by one',
    ])
      expect(await tally.textContent()).toContain(words);
  });

  it('counts on while somebody ticks by keys, asks once for a burst, and shows the last answer', async () => {
    const page = await estimate();
    await page.getByText('What moves it most').waitFor();
    const before = asked('/prices');
    await tick(page, 'Front lower ball joint, left').focus();
    for (const key of ['ArrowDown', 'ArrowDown', 'Space', 'ArrowDown', 'Space', 'End', 'Space'])
      await page.keyboard.press(key);
    await page.getByRole('heading', { name: 'Chosen: 4 of 7' }).waitFor();
    const left = [
      'Front lower ball joint, left',
      'Both front brake hoses',
      'Wheel alignment',
      'Rear silencer',
    ];
    await total(page)
      .getByText(together(...left))
      .waitFor();
    expect(asked('/prices') - before).toBeLessThanOrEqual(3);
    expect(await line(page, 'Front pads and discs').textContent()).toContain('It would add');
  });

  it('keeps the ticks when the network fails, says so, and asks again', async () => {
    const page = await estimate();
    await page.getByText('What moves it most').waitFor();
    mock().cutLine();
    await tick(page, 'Rear silencer').uncheck();
    await page.getByText('The total could not be worked out.').waitFor();
    expect(await tick(page, 'Rear silencer').isChecked()).toBe(false);
    expect(await total(page).textContent()).toBe('…');
    mock().mendLine();
    await page.getByRole('button', { name: 'Ask again' }).first().click();
    const left = mock()
      .desk.lines.map(({ title }) => title)
      .filter((title) => title !== 'Rear silencer');
    await total(page)
      .getByText(together(...left))
      .waitFor();
  });

  it('unfolds how a price came about, down to what was entered', async () => {
    const page = await estimate();
    const joint = line(page, 'Front lower ball joint, left');
    await joint.getByText('How it came about').click();
    await joint.getByText('sum of the figures below').waitFor();
    await joint.locator('summary', { hasText: 'Labour' }).click();
    await joint.getByText('each distinct step once; shared ones by equal parts').waitFor();
    await joint.getByText('as the shop set it').waitFor();
  });

  it('shows an earlier revision with what the owner answered', async () => {
    const page = await estimate();
    await page.getByRole('radio', { name: 'Revision 1, sent' }).check();
    await page.getByText('Approved by phone').waitFor();
    await page.getByText(/Sent 09:12 by Nell Farrow, holds until 18:00/).waitFor();
    expect(await page.getByRole('button', { name: /^Change:/ }).count()).toBe(0);
  });
});

describe('what this owner can spend now', () => {
  it('finds the best set for a sum, says what is left out and that nothing better exists, and takes it', async () => {
    const page = await estimate();
    await page.getByRole('slider').waitFor();
    await page.keyboard.press('F2');
    await page.keyboard.type('1,000');
    const set = page.getByRole('article', { name: 'The car can be driven' });
    await set.waitFor();
    await set.getByText('Why these').click();
    const words = await set.textContent();
    for (const part of [
      'has to be in',
      'Left out:',
      'No other set of these lines does more good',
      'of the vehicle’s value',
    ])
      expect(words).toContain(part);
    const price = await set.locator('header .num').textContent();
    await set.getByRole('button', { name: /^Choose these/ }).click();
    await total(page)
      .getByText(price ?? '')
      .waitFor();
    expect(await tick(page, 'Front lower ball joint, left').isChecked()).toBe(true);
    expect(await tick(page, 'Both front brake hoses').isChecked()).toBe(true);
    await set.getByText('These are chosen now').waitFor();
    await page.getByText(/of 7 lines are chosen now/).waitFor();
    expect(await accessibilityFaults(page)).toEqual([]);
  });

  it('says what a drivable car takes when the sum does not reach it', async () => {
    const page = await estimate();
    await page.getByRole('slider').waitFor();
    await page.getByLabel(SUM).fill('400');
    await page.getByText('This does not make the car fit to be driven.').waitFor();
    await page.getByRole('article', { name: 'The car is not to be driven' }).waitFor();
    expect(await page.locator('.sets').textContent()).toContain(
      `That takes at least ${together('Front lower ball joint, left', 'Both front brake hoses')}`,
    );
  });

  it('does not guess at what is not an amount, and keeps it', async () => {
    const page = await estimate();
    await page.getByRole('slider').waitFor();
    const before = asked('/choices');
    await page.getByLabel(SUM).fill('about a thousand');
    await page.getByText('Write an amount, such as 1500 or 1500.50.').waitFor();
    expect(await page.getByLabel(SUM).inputValue()).toBe('about a thousand');
    expect(asked('/choices')).toBe(before);
  });

  it('climbs the ladder by keys, tells each step in words, and takes one; the table says the same', async () => {
    const page = await estimate();
    const ladder = page.getByRole('slider', { name: 'Step of the ladder' });
    await ladder.focus();
    await page.keyboard.press('Home');
    expect(await ladder.getAttribute('aria-valuetext')).toContain(
      'Adds: Front lower ball joint, left; Both front brake hoses.',
    );
    await page.getByText(/Step 1 of \d+/).waitFor();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    const spoken = (await ladder.getAttribute('aria-valuetext')) ?? '';
    const price = spoken.split('. ')[0] ?? '';
    await page.getByRole('button', { name: 'Choose this step' }).click();
    await total(page).getByText(price).waitFor();
    await page.getByText('The steps as a table').click();
    const row = page.getByRole('row').filter({ hasText: price });
    expect(await row.textContent()).toContain(spoken.slice(price.length + 2));
    await page.getByRole('button', { name: 'Choose step 1', exact: true }).click();
    await total(page).getByText(together('Front lower ball joint, left', 'Both front brake hoses')).waitFor();
  });
});

describe('what others do meanwhile', () => {
  it('is shown by itself when it is this repair order, and read once for a burst', async () => {
    const page = await estimate();
    await page.getByText('What moves it most').waitFor();
    await until(() => mock().openStreams === 1);
    await page.waitForTimeout(400);
    const before = asked('/estimate');
    mock().emit('revision', 50, { repairOrderId: 'another' });
    await page.waitForTimeout(400);
    expect(asked('/estimate')).toBe(before);
    const silencer = mock().desk.lines.find(({ title }) => title === 'Rear silencer');
    if (silencer) silencer.title = 'Rear silencer, from stock';
    mock().emit('revision', 50, { repairOrderId: ORDER });
    await line(page, 'Rear silencer, from stock').waitFor();
    expect(asked('/estimate') - before).toBeLessThanOrEqual(2);
  });
});

describe('which repair order', () => {
  it('is found by plate, opened by Enter, and kept by the back button', async () => {
    const page = await estimate();
    await page.getByRole('heading', { name: /Ostrel Dace/ }).waitFor();
    await page.keyboard.press('F4');
    await page.getByText('4 of 4 in the shop').waitFor();
    expect(await accessibilityFaults(page)).toEqual([]);
    await page.keyboard.type('klv40');
    await page.getByText('1 of 4 in the shop').waitFor();
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: /Ostrel Dace/ }).waitFor();
    await page.goBack();
    await page.getByRole('heading', { name: 'Which repair order?' }).waitFor();
  });

  it('is a question for the desk and not for a technician', async () => {
    const page = await estimate(PHONE, 'Bram');
    await page.getByRole('heading', { name: 'Estimates are written at the desk' }).waitFor();
    expect(await page.getByRole('link', { name: 'To the job board' }).getAttribute('href')).toBe('/board');
  });

  it('that does not exist is said to be missing', async () => {
    const page = await estimate({ ...DESK_1280, light: 'dim' });
    await page.goto('/estimate?repairOrder=00000000-0000-4000-8500-000000000001');
    await page.getByText('There is no such repair order in this shop.').waitFor();
  });
});

describe('what the estimate weighs', () => {
  it('needs at most 90 KiB of script before it can be read', () => {
    const web = resolve(import.meta.dirname, '../../dist/web');
    const html = readFileSync(resolve(web, 'estimate.html'), 'utf8');
    const first = [...html.matchAll(/(?:src|href)="\/(assets\/[^"]+\.js)"/g)].map((match) => match[1] ?? '');
    const sizes = first.map((file) => gzipSync(readFileSync(resolve(web, file)), { level: 9 }).length);
    expect(first.length).toBeGreaterThan(2);
    expect(sizes.reduce((sum, size) => sum + size, 0)).toBeLessThanOrEqual(90 * 1024);
  });
});
