import { setUpBench } from './board-bench.js';
import { accessibilityFaults, layoutShift, shoot } from './browser.js';
import { DESK, PHONE, said, ticket } from './page-steps.js';

const { board, mock } = setUpBench();

describe('what the board tells of the plan', () => {
  it.each([
    ['desk', DESK],
    ['phone', PHONE],
  ])('says at the %s that promises no longer hold, and nothing moves when it does', async (name, screen) => {
    const page = await board('Nell', screen);
    const words = page.getByRole('link', { name: '2 promises no longer hold' });
    await words.waitFor();
    expect(await words.getAttribute('href')).toBe('/plan');
    expect(await layoutShift(page)).toBeLessThan(0.02);
    await shoot(page, `board-plan-words-${name}`);
    expect(await accessibilityFaults(page)).toEqual([]);
  });

  it('says that there is a proposal, and says nothing when there is nothing to say', async () => {
    mock().planning.plan.late = [];
    const page = await board('Nell');
    await page.getByRole('link', { name: 'The plan has a proposal' }).waitFor();
    mock().planning.plan.openProposalId = null;
    mock().board.now = new Date(Date.parse(mock().board.now) + 60_000).toISOString();
    mock().emit('plan');
    await page.locator('.plan-says').waitFor({ state: 'detached' });
  });

  it('folds the other pages away, each person theirs, and folds them again for who goes on', async () => {
    const page = await board('Bram');
    await page.getByText('Other pages', { exact: true }).click();
    await page.getByRole('link', { name: 'The plan', exact: true }).focus();
    expect(await page.getByRole('link', { name: 'Estimates' }).count()).toBe(0);
    await ticket(page, 2474).focus();
    await page.getByRole('link', { name: 'The plan', exact: true }).waitFor({ state: 'hidden' });
  });

  it('tells on a ticket why it is there and then, and lets the desk keep it', async () => {
    const page = await board('Nell');
    await ticket(page, 2488).click();
    const why = page.locator('.why-here');
    await why.getByText('is in "Front right" until today 11:15.').waitFor();
    await why.getByRole('button', { name: 'Keep it here' }).click();
    await said(page).getByText('2488 is kept where it is.').waitFor();
    expect(mock().calls.findLast(({ method }) => method === 'PATCH')?.body).toEqual({ isPinned: true });
    await why.getByRole('button', { name: 'Let the plan move it' }).waitFor();
    await shoot(page, 'ticket-why-here-desk');
    expect(await accessibilityFaults(page)).toEqual([]);
  });

  it('tells technicians the same, and offers them nothing to decide', async () => {
    const page = await board('Bram');
    await ticket(page, 2488).click();
    await page.locator('.why-here').getByText('Another bay with a lift.').waitFor();
    expect(await page.locator('.why-here').getByRole('button').count()).toBe(0);
  });
});
