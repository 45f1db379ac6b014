import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Page } from 'playwright-core';
import { accessibilityFaults, shoot, sidewaysScroll } from './browser.js';
import { endLook } from './mock-planning.js';
import { proposalOf, runId } from './mock-plan.js';
import { setUpPlan } from './plan-bench.js';
import { PHONE, said, until } from './page-steps.js';

const { plan, mock } = setUpPlan();

const section = (page: Page, name: string) => page.getByRole('region', { name });
const proposal = (page: Page) => section(page, 'What the plan would change');
const planned = (page: Page, name: RegExp) => page.getByRole('article', { name });
const headline = (page: Page, words: string) => page.getByRole('heading', { level: 1, name: words });

describe('what the plan tells', () => {
  it('says first which promises no longer hold, how late, and what holds each of them up', async () => {
    const page = await plan();
    await headline(page, '2 promises no longer hold').waitFor();
    const order = await planned(page, /^Corvane Umber/).textContent();
    for (const words of [
      '1114',
      '17 hours 6 minutes late',
      'today 16:30',
      'tomorrow 09:36',
      'Its parts come tomorrow 08:00.',
    ])
      expect(order).toContain(words);
    const chain = page.getByRole('list', { name: /What holds repair order 1108 up/ });
    expect(await chain.getByRole('listitem').count()).toBe(2);
    expect(await chain.textContent()).toContain('What would free it: Another bay with a lift.');
  });

  it('says in a sentence that every promise holds, and that the plan proposes nothing', async () => {
    mock().planning.plan.late = [];
    mock().planning.plan.openProposalId = null;
    const page = await plan();
    await headline(page, 'Every promise holds').waitFor();
    await proposal(page)
      .getByText(/Nothing: the plan has no proposal just now/)
      .waitFor();
    expect(await page.getByRole('button', { name: 'Accept all of it' }).count()).toBe(0);
  });

  it('tells an empty shop and a refusal apart', async () => {
    Object.assign(mock().planning.plan, {
      planned: [],
      notPlanned: [],
      overdueParts: [],
      notes: [],
      late: [],
      openProposalId: null,
    });
    const page = await plan();
    await page.getByText('No work has a place in the plan.').waitFor();
    await page.getByText('All open work has a place.').waitFor();
    mock().refuse({
      ...{ method: 'GET', path: /\/plan$/, status: 503 },
      problem: { code: 'database-unavailable', detail: 'The database does not answer just now.' },
    });
    await page.reload();
    await headline(page, 'The plan cannot be shown').waitFor();
    await page.getByRole('button', { name: 'Try again' }).click();
    await headline(page, 'Every promise holds').waitFor();
  });

  it('shows why work starts then, by start or by bay, with more reasons behind the first', async () => {
    const page = await plan();
    const shocks = planned(page, /2488/);
    expect(await shocks.textContent()).toContain('is in "Front right" until today 11:15.');
    await shocks.getByText('2 more reasons').click();
    await shocks.getByText('The vehicle brought sooner.').waitFor();
    await page.getByRole('radio', { name: 'By bay' }).check();
    await page.getByRole('heading', { level: 3, name: 'Front left' }).waitFor();
    expect(await planned(page, /2494/).textContent()).toContain('tomorrow');
  });

  it('lists parts that should have come, and takes the new time that the desk was told', async () => {
    const page = await plan();
    const overdue = section(page, 'Overdue parts');
    await overdue.getByText(/since today 08:30\. For 2501 .* which has no place until then\./).waitFor();
    await overdue.getByRole('button', { name: 'Tell when it comes: gasket set, 2501' }).click();
    await overdue.getByLabel('Time').fill('08:00');
    await overdue.getByRole('button', { name: 'It comes then' }).click();
    await overdue.getByText('Give a time that is still to come.').waitFor();
    expect(await accessibilityFaults(page)).toEqual([]);
    await shoot(page, 'plan-overdue-desk');
    await overdue.getByLabel('Day').fill('2031-03-14');
    await overdue.getByRole('button', { name: 'It comes then' }).click();
    await said(page)
      .getByText(/gasket set: expected Friday 14 March, 08:00\./)
      .waitFor();
    expect(await overdue.count()).toBe(0);
    expect(mock().calls.findLast(({ method }) => method === 'POST')).toMatchObject({
      body: { expectedAt: '2031-03-14T07:00:00.000Z' },
    });
  });

  it('lists what happened lately and unfolds what was different in it', async () => {
    const page = await plan();
    const runs = section(page, 'What happened lately');
    await runs.getByText('Nothing had to change').waitFor();
    await runs.getByText('3 moves proposed: accepted by Nell Farrow.').click();
    await runs.getByText('It makes room for work order 2488.').waitFor();
  });

  it('lets technicians read, and offers them nothing to decide', async () => {
    const page = await plan('Bram', PHONE);
    await proposal(page).getByText('The front desk or the manager answers it.').waitFor();
    await page.getByText(/Nothing had to change/).waitFor();
    for (const name of [/Accept/, /Leave it/, /Keep it here/, /Look for/])
      expect(await page.getByRole('button', { name }).count()).toBe(0);
    expect(await page.getByRole('link', { name: 'Estimates' }).count()).toBe(0);
  });
});

describe('answering a proposal', () => {
  it('is accepted by keys: the promise holds again, and the focus stays where it was told', async () => {
    const page = await plan();
    await proposal(page).getByText('Kept again:').waitFor();
    await page.getByRole('button', { name: 'Accept all of it' }).focus();
    await page.keyboard.press('Enter');
    await said(page).getByText('Accepted: 3 work orders moved.').waitFor();
    await headline(page, '1 promise no longer holds').waitFor();
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('What the plan would change');
    expect(mock().planning.runs[0]?.decision).toBe('accepted');
  });

  it('is left as it is', async () => {
    const page = await plan();
    await page.getByRole('button', { name: 'Leave it as it is' }).click();
    await said(page).getByText('The plan stays as it is').waitFor();
    expect(mock().planning.runs[0]?.decision).toBe('rejected');
    await headline(page, '2 promises no longer hold').waitFor();
  });

  it('that no longer fits is told in words, and the new one comes by itself', async () => {
    const page = await plan();
    mock().refuse({
      ...{ method: 'POST', path: /\/accept$/, status: 409 },
      problem: {
        code: 'plan-outdated',
        detail: 'Middle is taken then. Another look at the plan is under way.',
        planRunId: runId(4),
      },
    });
    await page.getByRole('button', { name: 'Accept all of it' }).click();
    await proposal(page)
      .getByRole('alert')
      .getByText(/Middle is taken then\..*appears here by itself/)
      .waitFor();
    await shoot(page, 'plan-outdated');
    expect(await page.getByRole('button', { name: 'Accept all of it' }).count()).toBe(0);
    await until(() => mock().openStreams === 1);
    mock().planning.runs.unshift({
      ...proposalOf(4),
      changeCount: 2,
      changes: proposalOf(4).changes.slice(1),
    });
    mock().planning.plan.openProposalId = runId(4);
    mock().emit('plan', 1, { planRunId: runId(4) });
    await proposal(page).getByText('2 work orders would move.').waitFor();
    await said(page).getByText('The plan proposes a change.').waitFor();
    // Told still, so that the new one is not taken for the one that was meant.
    await proposal(page)
      .getByRole('alert')
      .getByText(/What stands below is a new proposal/)
      .waitFor();
    await page.getByRole('button', { name: 'Accept all of it' }).click();
    await said(page).getByText('Accepted: 2 work orders moved.').waitFor();
    expect(await proposal(page).getByRole('alert').textContent()).toBe('');
  });
});

describe('one piece of work', () => {
  it('is kept where it is, and given to the plan again', async () => {
    const page = await plan();
    await page.getByRole('button', { name: 'Keep it here: 2488 Rear shock absorbers, pair' }).click();
    await said(page).getByText('2488 is kept where it is.').waitFor();
    await planned(page, /2488/).getByText('A person keeps it where the plan had put it.').waitFor();
    await page.getByRole('button', { name: /^Let the plan move it: 2488/ }).click();
    await planned(page, /2488/).getByText('The plan gave it this place and may move it.').waitFor();
    expect(mock().calls.findLast(({ method }) => method === 'PATCH')?.body).toEqual({ isPinned: false });
  });

  it('is left out only after a second word, and let in again', async () => {
    const page = await plan();
    await page.getByRole('button', { name: 'Leave it out of the plan: 2494 Handbrake cables' }).click();
    await page.getByText(/It gives up its place, tomorrow 08:00 in Middle/).waitFor();
    await page.keyboard.press('Enter');
    await said(page).getByText('2494 is out of the plan.').waitFor();
    await page.getByRole('button', { name: /^Let it into the plan: 2494/ }).click();
    await said(page).getByText('The plan may give 2494 a place.').waitFor();
  });

  it('says when somebody was faster', async () => {
    const page = await plan();
    const work = mock().planning.plan.planned.find(({ number }) => number === 2488);
    if (work) work.version = 5;
    await page.getByRole('button', { name: /^Keep it here: 2488/ }).click();
    await page
      .locator('.say.refused')
      .getByText(/Somebody changed it first\. The plan has been read again/)
      .waitFor();
  });
});

describe('what the manager sets', () => {
  it('keeps the mode and the figures, and names a figure that is not right', async () => {
    const page = await plan('Ines');
    await page.getByRole('radio', { name: /The plan changes at once/ }).check();
    await page.getByLabel('Another technician does it').fill('90');
    await page.getByText('That is 1 hour 30 minutes.').waitFor();
    mock().refuse({
      ...{ method: 'PUT', path: /\/plan\/settings$/, status: 422 },
      problem: {
        ...{ code: 'request-invalid', detail: 'Some fields are not right.' },
        fields: [{ pointer: '/horizonDays', detail: 'Enter 1 to 120 days.' }],
      },
    });
    await page.getByRole('button', { name: 'Keep these settings' }).click();
    await page.getByText('Enter 1 to 120 days.').waitFor();
    await page.getByRole('button', { name: 'Keep these settings' }).click();
    await said(page).getByText('Kept. It holds from the next look').waitFor();
    expect(mock().planning.settings).toMatchObject({
      mode: 'apply',
      weights: { technicianChanged: 90 },
      version: 4,
    });
  });

  it('loses nothing that was typed when somebody else was faster', async () => {
    const page = await plan('Ines');
    await page.getByLabel('It is done in another bay').fill('45');
    mock().planning.settings = { ...mock().planning.settings, horizonDays: 14, version: 8 };
    await page.getByRole('button', { name: 'Keep these settings' }).click();
    await page.getByText(/Somebody changed the settings first/).waitFor();
    await page.getByText('Now it is 14.').waitFor();
    expect(await page.getByLabel('It is done in another bay').inputValue()).toBe('45');
    await shoot(page, 'plan-settings-conflict', true);
    expect(await accessibilityFaults(page)).toEqual([]);
    await page.getByRole('button', { name: 'Keep these settings' }).click();
    await said(page).getByText('Kept.').waitFor();
    expect(mock().planning.settings).toMatchObject({
      horizonDays: 21,
      weights: { bayChanged: 45 },
      version: 9,
    });
  });

  it('asks for a longer look and is told what came of it', async () => {
    mock().planning.plan.openProposalId = null;
    const page = await plan('Ines');
    await page.getByRole('button', { name: 'Look for a better plan' }).click();
    await page.getByText('Looking …').waitFor();
    await until(() => mock().openStreams === 1);
    expect(mock().calls.findLast(({ method }) => method === 'POST')?.body).toEqual({ improve: true });
    endLook(mock(), 'unchanged');
    await page
      .getByText(/^Nothing better was found/)
      .first()
      .waitFor();
    await page.getByRole('button', { name: 'Look for a better plan' }).click();
    await page.getByText('Looking …').waitFor();
    endLook(mock(), 'proposed');
    await page.getByText(/it stands above as a proposal/).waitFor();
    await proposal(page).getByText('Ines Okorie asked for a better plan').waitFor();
  });
});

describe('the line', () => {
  it('brings what happens; when it is lost the plan stays, and says of when it is', async () => {
    const page = await plan();
    await until(() => mock().openStreams === 1);
    const [first] = mock().planning.plan.late;
    if (first)
      mock().planning.plan.late = [
        ...mock().planning.plan.late,
        { ...first, repairOrderId: 'x', number: 1190 },
      ];
    mock().emit('clock');
    await headline(page, '3 promises no longer hold').waitFor();
    await said(page).getByText('1 more than before').waitFor();
    mock().cutLine();
    await page.getByText(/Line lost\..*This is the plan of 10:42/).waitFor();
    await headline(page, '3 promises no longer hold').waitFor();
    mock().planning.plan.late = [];
    mock().mendLine();
    await headline(page, 'Every promise holds').waitFor({ timeout: 15_000 });
    expect(await sidewaysScroll(page)).toBe(0);
  }, 40_000);
});

describe('what the page weighs', () => {
  it('needs at most 90 KiB of script before it can be read', () => {
    const web = resolve(import.meta.dirname, '../../dist/web');
    const html = readFileSync(resolve(web, 'plan.html'), 'utf8');
    const first = [...html.matchAll(/(?:src|href)="\/(assets\/[^"]+\.js)"/g)].map((match) => match[1] ?? '');
    const sizes = first.map((file) => gzipSync(readFileSync(resolve(web, file)), { level: 9 }).length);
    expect(first.length).toBeGreaterThan(2);
    expect(sizes.reduce((sum, size) => sum + size, 0)).toBeLessThanOrEqual(90 * 1024);
  });
});
