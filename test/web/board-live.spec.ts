import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { gzipSync } from 'node:zlib';
import { setUpBench } from './board-bench.js';
import { accessibilityFaults, shoot } from './browser.js';
import { ticket, until } from './page-steps.js';

const { board, mock } = setUpBench();

describe('the live line', () => {
  it('shows what others change, and reads once for a burst of 400 events', async () => {
    const page = await board('Nell');
    await until(() => mock().openStreams === 1);
    const reads = (): number => mock().calls.filter((call) => call.path.startsWith('/api/v1/board')).length;
    const before = reads();
    const changed = mock().board.tickets.find((one) => one.workOrderNumber === 2491);
    if (changed) changed.vehicle = { label: 'Corvane Ochre', plate: 'BRST 400' };
    mock().emit('assignment', 400);
    await ticket(page, 2491).getByText('Corvane Ochre', { exact: true }).waitFor();
    expect(reads() - before).toBeLessThanOrEqual(3);
  });

  it('says when the line is lost, keeps showing the last board, and catches up when it is back', async () => {
    const page = await board('Nell');
    await until(() => mock().openStreams === 1);
    mock().cutLine();
    await page.getByText(/Line lost\..*This is the board of 10:42/).waitFor();
    await shoot(page, 'board-line-lost');
    expect(await accessibilityFaults(page)).toEqual([]);
    expect(await ticket(page, 2481).count()).toBe(1);
    mock().board.tickets = mock().board.tickets.filter((one) => one.workOrderNumber !== 2488);
    mock().mendLine();
    await page.getByText('Line lost.').waitFor({ state: 'detached', timeout: 15_000 });
    await ticket(page, 2488).waitFor({ state: 'detached' });
  });

  it('goes on by itself when the access token has run out', async () => {
    const page = await board('Nell');
    mock().expireTokens();
    await page.getByRole('button', { name: 'Day after' }).click();
    await page.getByText('Nothing is held up.').waitFor();
    expect(mock().calls.filter((call) => call.path === '/api/v1/sessions/refresh')).toHaveLength(2);
  });

  it('leads to the sign-in page when the session is over, with the reason', async () => {
    const page = await board('Nell');
    mock().expireTokens();
    mock().cookies.clear();
    await page.getByRole('button', { name: 'Day after' }).click();
    await page.waitForURL('**/sign-in?why=expired');
    await page.getByText(/You were signed out/).waitFor();
  });
});

describe('what the board weighs', () => {
  it('needs at most 90 KiB of script before it can be read', () => {
    const web = resolve(import.meta.dirname, '../../dist/web');
    const html = readFileSync(resolve(web, 'board.html'), 'utf8');
    const first = [...html.matchAll(/(?:src|href)="\/(assets\/[^"]+\.js)"/g)].map((match) => match[1] ?? '');
    const sizes = first.map((file) => gzipSync(readFileSync(resolve(web, file)), { level: 9 }).length);
    expect(first.length).toBeGreaterThan(2);
    expect(sizes.reduce((sum, size) => sum + size, 0)).toBeLessThanOrEqual(90 * 1024);
  });
});
