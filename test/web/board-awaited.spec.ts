import type { Page } from 'playwright-core';
import { setUpBench } from './board-bench.js';
import { accessibilityFaults, shoot } from './browser.js';
import { DESK, PHONE, said } from './page-steps.js';

const { board, mock } = setUpBench();
const waiting = (page: Page) => page.getByRole('button', { name: '2472' }).last();

describe('parts that are still to come, on a ticket', () => {
  it.each([
    ['desk', DESK],
    ['phone', PHONE],
  ])('are told by the %s to come later, and not at a time that has passed', async (name, screen) => {
    const page = await board('Nell', screen);
    await waiting(page).click();
    const awaited = page.locator('.awaited');
    await awaited.getByText('expected tomorrow 10:00').waitFor();
    await awaited.getByText('As the estimate says.').waitFor();
    await awaited.getByRole('button', { name: 'Tell when it comes' }).click();
    await awaited.getByLabel('Day').fill('2031-03-11');
    await awaited.getByRole('button', { name: 'It comes then' }).click();
    await awaited.getByText('Give a time that is still to come.').waitFor();
    await awaited.getByLabel('Day').fill('2031-03-14');
    await awaited.getByLabel('Time').fill('15:30');
    await shoot(page, `ticket-awaited-${name}`);
    expect(await accessibilityFaults(page)).toEqual([]);
    await awaited.getByRole('button', { name: 'It comes then' }).click();
    await awaited.getByText('expected Friday 14 March, 15:30').waitFor();
    await awaited.getByText('Told today 10:42 by Nell Farrow.').waitFor();
    expect(mock().calls.findLast(({ method }) => method === 'POST')).toMatchObject({
      body: { expectedAt: '2031-03-14T14:30:00.000Z' },
    });
  });

  it('are overdue once that time has passed', async () => {
    for (const need of mock().parts)
      Object.assign(need, { expectedAt: '2031-03-11T09:00:00.000Z', isOverdue: true });
    const page = await board('Nell');
    await waiting(page).click();
    const awaited = page.locator('.awaited');
    await awaited.getByText('overdue since yesterday 10:00').waitFor();
    await awaited.getByRole('button', { name: 'Tell when it comes' }).click();
    expect(await awaited.getByLabel('Day').inputValue()).toBe('2031-03-12');
  });

  it('may have no known time any more', async () => {
    const page = await board('Nell');
    await waiting(page).click();
    const awaited = page.locator('.awaited');
    await awaited.getByRole('button', { name: 'Tell when it comes' }).click();
    await awaited.getByRole('button', { name: 'Nobody knows when' }).click();
    await said(page).getByText('gasket set: nobody knows when it comes.').waitFor();
    await awaited.getByText('nobody knows when', { exact: false }).waitFor();
    expect(mock().calls.findLast(({ method }) => method === 'POST')?.body).toEqual({ expectedAt: null });
  });

  it('are told by the desk alone', async () => {
    const page = await board('Bram');
    // What every ticket asks for once its late code is there.
    const asked = page.waitForResponse((response) => response.url().endsWith('/contingencies'));
    await waiting(page).click();
    await page.locator('.holds').getByText('gasket set due').waitFor();
    await asked;
    expect(await page.locator('.awaited').count()).toBe(0);
    expect(mock().calls.some(({ path }) => path.endsWith('/part-needs'))).toBe(false);
  });
});
