import type { Page } from 'playwright-core';
import { accessibilityFaults } from './browser.js';
import { setUpEstimate } from './estimate-bench.js';

const { estimate, mock } = setUpEstimate();

const tick = (page: Page, title: string) =>
  page.locator('.tick').getByRole('checkbox', { name: title, exact: true });
const line = (page: Page, title: string) => page.getByRole('article', { name: title, exact: true });

describe('writing', () => {
  it('writes a line with an operation found by search and a part, and keeps it all when it is refused', async () => {
    const page = await estimate();
    await page.getByText('What moves it most').waitFor();
    await page.keyboard.press('F8');
    const sheet = page.getByRole('dialog', { name: 'Write a line' });
    await sheet.getByLabel('What is to be done').fill('Wiper blades');
    await sheet.getByLabel('Search the catalogue').pressSequentially('wip');
    await sheet.locator('[role=option]').getByText('Wiper blades').waitFor();
    await page.keyboard.press('Enter');
    await sheet.getByRole('button', { name: 'Add a part or other item' }).click();
    await sheet.getByLabel('Name', { exact: true }).fill('Blade');
    await sheet.getByLabel('Price each, €').fill('14,90');
    mock().refuse({
      method: 'POST',
      path: /lines$/,
      status: 422,
      problem: {
        code: 'validation-failed',
        detail: 'The request has fields that cannot be right.',
        fields: [
          { pointer: '/operations/0/positions', detail: 'Say where it is done.' },
          { pointer: '/spread', detail: 'Low is above high.' },
        ],
      },
    });
    await page.keyboard.press('Control+Enter');
    await sheet.getByText('Say where it is done.').waitFor();
    await sheet.getByText('spread: Low is above high.').waitFor();
    expect(await accessibilityFaults(page)).toEqual([]);
    expect(await sheet.getByLabel('Price each, €').inputValue()).toBe('14,90');
    await sheet.getByRole('checkbox', { name: 'vehicle', exact: true }).check();
    await page.keyboard.press('Control+Enter');
    await sheet.waitFor({ state: 'detached' });
    await line(page, 'Wiper blades').waitFor();
    expect(await tick(page, 'Wiper blades').isChecked()).toBe(true);
    const sent = mock().calls.findLast((call) => call.path.endsWith('/lines'));
    expect(sent?.body).toMatchObject({
      title: 'Wiper blades',
      operations: [{ positions: ['vehicle'] }],
      items: [{ name: 'Blade', unitPriceCents: 1490, quantityHundredths: 100 }],
    });
  });

  it('reads again when somebody changed it first, keeps what was written, and then saves', async () => {
    const page = await estimate();
    await page.getByText('What moves it most').waitFor();
    await line(page, 'Rear silencer').getByRole('button', { name: 'Change' }).click();
    const sheet = page.getByRole('dialog');
    await sheet.getByLabel('What is to be done').fill('Rear silencer and both rubbers');
    mock().desk.draftVersion += 1;
    await sheet.getByRole('button', { name: 'Save the line' }).click();
    await sheet.getByText(/Somebody changed it first\. The estimate has been read again/).waitFor();
    expect(await sheet.getByLabel('What is to be done').inputValue()).toBe('Rear silencer and both rubbers');
    await sheet.getByRole('button', { name: 'Save the line' }).click();
    await line(page, 'Rear silencer and both rubbers').waitFor();
  });

  it('keeps what was typed when the sheet is closed by accident', async () => {
    const page = await estimate();
    await page.getByText('What moves it most').waitFor();
    await page.keyboard.press('F8');
    await page.getByLabel('What is to be done').fill('Half a thought');
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    await page.keyboard.press('F8');
    expect(await page.getByLabel('What is to be done').inputValue()).toBe('Half a thought');
  });

  it('adds a contingency with its chance and cap, and takes a line out', async () => {
    const page = await estimate();
    await page.getByText('What moves it most').waitFor();
    await line(page, 'Rear silencer')
      .getByRole('button', { name: /^Contingency/ })
      .click();
    const sheet = page.getByRole('dialog');
    await sheet.getByLabel('What may happen').fill('The flange tears');
    await sheet.getByLabel('In how many of 100 cars like this').fill('15');
    await sheet.getByLabel('Extra hours then').fill('0.6');
    await sheet.getByLabel('Never more than, €').fill('90');
    await page.keyboard.press('Control+Enter');
    await line(page, 'Rear silencer').getByText('If the flange tears:').waitFor();
    expect(mock().calls.findLast((call) => call.path.endsWith('/contingencies'))?.body).toEqual({
      what: 'The flange tears',
      chancePpm: 150_000,
      hundredths: 60,
      capCents: 9000,
    });
    await line(page, 'Heater matrix hose, weeping')
      .getByRole('button', { name: /^Take out/ })
      .click();
    await page.getByRole('dialog').getByRole('button', { name: 'Take it out' }).click();
    await line(page, 'Heater matrix hose, weeping').waitFor({ state: 'detached' });
    await page.getByRole('heading', { name: 'Chosen: 6 of 6' }).waitFor();
  });

  it('sends the draft and shows the link this once', async () => {
    const page = await estimate();
    await page.getByText('What moves it most').waitFor();
    await page.keyboard.press('F9');
    await page.getByRole('dialog').getByRole('button', { name: 'Send revision 2' }).click();
    expect(await page.getByLabel('The owner’s link').inputValue()).toContain('/o/tamarind/');
    expect(await accessibilityFaults(page)).toEqual([]);
    await page.getByRole('button', { name: 'Done' }).click();
    await page.getByRole('heading', { name: 'Revision 2, sent' }).waitFor();
    expect(await page.content()).not.toContain('/o/tamarind/');
    expect(mock().calls.find((call) => call.path.endsWith('/send'))?.headers['if-match']).toBe('"4"');
  });

  it('enters the value of the vehicle, and takes something off all of it with a reason', async () => {
    mock().desk.valueCents = null;
    const page = await estimate();
    await page.getByText('What moves it most').waitFor();
    await page.getByRole('button', { name: 'Enter the value of the vehicle' }).click();
    await page.getByLabel('Worth as it stands, €').fill('2,000');
    await page.getByRole('button', { name: 'Enter the value', exact: true }).click();
    await page.getByText('82 % of the value entered for the vehicle').waitFor();
    await page.getByRole('button', { name: 'Discount on all of it' }).click();
    await page.getByLabel('Or an amount, €').fill('a bit');
    await page.getByLabel('Why; the owner reads it').fill('long wait');
    await page.getByRole('button', { name: 'Set the discount' }).click();
    await page.getByText('Write the amount as a number').waitFor();
    await page.getByLabel('Or an amount, €').fill('50');
    await page.getByRole('button', { name: 'Set the discount' }).click();
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    expect(mock().calls.findLast((call) => call.method === 'PUT')?.body).toEqual({
      labourPpm: null,
      itemsPpm: null,
      cents: 5000,
      reason: 'long wait',
    });
  });
});
