import { focused, setUpBench } from './board-bench.js';
import { accessibilityFaults } from './browser.js';
import { at, bayId, staffId, workOrderId } from './mock-data.js';
import { PHONE, pointOf, ticket, trayTicket } from './page-steps.js';

const { board, mock, assignmentOf, lastCall } = setUpBench();

describe('what the floor shows', () => {
  it('tells every state in a word, lists who is in each bay, and what waits for what', async () => {
    const page = await board('Nell');
    for (const [n, word] of [
      [2474, 'Done'],
      [2481, 'On the clock'],
      [2476, 'Past book'],
      [2479, 'Held'],
      [2483, 'Paused'],
      [2490, 'Planned'],
    ] as const) {
      expect(await ticket(page, n).textContent()).toContain(`, ${word}.`);
    }
    expect(await ticket(page, 2476).locator('.tail').textContent()).toBe('+0.7 h');
    expect(await page.getByRole('region', { name: 'Bay 1, Front left' }).textContent()).toContain(
      'Bram Tollan',
    );
    expect(await page.getByRole('region', { name: 'Bay 3, Middle' }).textContent()).toContain('Nobody here');
    expect(await page.getByRole('region', { name: 'Bay 6, Back yard' }).textContent()).toContain(
      'being painted',
    );
    const out = page.getByText('Out of service: Turntables are calibrated');
    expect(await out.boundingBox()).not.toBeNull();
    expect((await out.boundingBox())?.x).toBeGreaterThan((await pointOf(page, 5, '16:15')).x);
    const waiting = page.getByRole('region', { name: /Waiting/ });
    expect(await waiting.textContent()).toContain('Parts: gasket set due Thursday 13 March');
    expect(await waiting.textContent()).toContain('Earlier work order: after 2502');
    expect(await trayTicket(page, 2500).count()).toBe(1);
    expect(await trayTicket(page, 2481).count()).toBe(0);
  });

  it('draws a ticket where its time lies on the rule, and the tray at book length', async () => {
    const page = await board('Nell');
    const box = await ticket(page, 2491).boundingBox();
    expect(box?.x).toBeCloseTo((await pointOf(page, 3, '12:00')).x, 0);
    const track = await page.locator('.track').first().boundingBox();
    const tray = await trayTicket(page, 2500).boundingBox();
    expect((tray?.width ?? 0) / (track?.width ?? 1)).toBeCloseTo(1.8 / 10, 2);
  });

  it('goes to another day and back, keeps the day over a reload, and says when nothing is there', async () => {
    const page = await board('Nell');
    await page.getByRole('button', { name: 'Day after' }).click();
    await page.getByText('Thursday 13 March').first().waitFor();
    expect(page.url()).toContain('day=2031-03-13');
    await page.reload();
    await page.getByText('Nothing is held up.').waitFor();
    expect(await page.locator('.tk').count()).toBe(0);
    await page.getByRole('button', { name: 'Today' }).click();
    await ticket(page, 2481).waitFor();
    expect(page.url()).not.toContain('day=');
  });

  it('shows the same as a list, and keeps that choice', async () => {
    const page = await board('Nell');
    await page.getByRole('radio', { name: 'As a list' }).check();
    await page.getByRole('main', { name: 'Bays, one after the other' }).waitFor();
    expect(await page.getByRole('button', { name: /2476.*Past book/ }).count()).toBe(1);
    await page.reload();
    await page.getByRole('button', { name: /2486/ }).waitFor();
  });
});

describe('an opened ticket', () => {
  it('opens on Enter, closes on Escape, and gives the focus back', async () => {
    const page = await board('Nell');
    await ticket(page, 2481).focus();
    await page.keyboard.press('Enter');
    const dialog = page.getByRole('dialog', { name: /2481 Front pads and discs/ });
    await dialog.waitFor();
    for (const words of [
      'RTN 118',
      '1.6 h',
      '0.7 h',
      'Unsafe',
      'Support the vehicle',
      'Bram Tollan, since 09:58',
    ]) {
      expect(await dialog.textContent()).toContain(words);
    }
    await page.keyboard.press('Escape');
    await dialog.waitFor({ state: 'detached' });
    expect(await focused(page)).toBe(workOrderId(2481));
  });

  it('plans a ticket without dragging: bay, technician, time and hours', async () => {
    const page = await board('Nell');
    await trayTicket(page, 2500).click();
    await page.getByRole('button', { name: 'Assign to a bay' }).click();
    await page.getByLabel('Bay', { exact: true }).selectOption({ value: bayId(3) });
    await page.getByLabel('Technician').selectOption({ value: staffId(13) });
    await page.getByLabel('Start', { exact: true }).fill('16:00');
    await page.getByLabel('Hours on the bay').fill('1.5');
    await page.getByRole('button', { name: 'Assign', exact: true }).click();
    await page.getByText('2500 is planned for 16:00.').waitFor();
    expect(assignmentOf(2500)).toMatchObject({
      startsAt: at('16:00'),
      endsAt: at('17:30'),
      technicianId: staffId(13),
    });
    expect(lastCall('POST')?.headers['idempotency-key']).toMatch(/^"[0-9a-f-]{36}"$/);
    await page.getByRole('button', { name: 'Cancel the assignment' }).click();
    await page.getByText('2500 has no bay and time any more.').waitFor();
    expect(assignmentOf(2500)).toBeNull();
  });

  it('asks for the technician when a ticket of the tray is put down on a bay', async () => {
    const page = await board('Nell');
    await trayTicket(page, 2505).focus();
    await page.keyboard.press('Space');
    for (let n = 0; n < 2; n += 1) await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    const dialog = page.getByRole('dialog');
    expect(await dialog.getByLabel('Bay', { exact: true }).inputValue()).toBe(bayId(3));
    expect(await dialog.getByLabel('Start').inputValue()).toBe('10:45');
    expect(await accessibilityFaults(page)).toEqual([]);
  });

  it('claims, clocks on, pauses with a reason and finishes, as the technician', async () => {
    const page = await board('Dov', PHONE);
    await page.getByRole('button', { name: /2500/ }).click();
    const dialog = page.getByRole('dialog');
    await dialog.getByRole('button', { name: 'Claim' }).click();
    await dialog.getByRole('button', { name: 'Clock on' }).click();
    await dialog.getByText('On the clock').waitFor();
    await dialog.getByRole('button', { name: 'Pause' }).click();
    await dialog.getByLabel('A part is missing or wrong').check();
    await dialog.getByRole('button', { name: 'Pause' }).click();
    await dialog.getByText('Paused').waitFor();
    expect(lastCall('POST')?.body).toEqual({ reason: 'A part is missing or wrong' });
    expect(await dialog.getByRole('button', { name: 'Assign to a bay' }).count()).toBe(0);
  });

  it('says who has it when somebody else claimed first', async () => {
    const page = await board('Bram');
    await trayTicket(page, 2500).click();
    const open = mock().board.tickets.find((one) => one.workOrderNumber === 2500);
    if (open)
      open.claim = { technicianId: staffId(12), displayName: 'Saffi Renqvist', claimedAt: at('10:41') };
    await page.getByRole('dialog').getByRole('button', { name: 'Claim' }).click();
    await page.getByRole('alert').getByText('Somebody has claimed it. It is with Saffi Renqvist.').waitFor();
  });
});
