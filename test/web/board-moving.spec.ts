import { focused, setUpBench } from './board-bench.js';
import { shoot } from './browser.js';
import { at, bayId, workOrderId } from './mock-data.js';
import { TABLET, pointOf, said, ticket } from './page-steps.js';

const { board, mock, assignmentOf, lastCall } = setUpBench();

describe('moving a ticket', () => {
  it('by keys alone: picked up, moved, put down, with the focus kept and every step said', async () => {
    const page = await board('Nell');
    await ticket(page, 2491).focus();
    await page.keyboard.press('Space');
    expect(await said(page).first().textContent()).toContain('2491 picked up');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowUp');
    expect(await said(page).first().textContent()).toBe(
      '2491 would start 12:15 in bay 2, end 13:51, over 2488',
    );
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await page.getByText('2491 now starts 12:15 in bay 3.').waitFor();
    expect(assignmentOf(2491)?.startsAt).toBe(at('12:15'));
    expect(await focused(page)).toBe(workOrderId(2491));
    expect(lastCall('PATCH')?.headers['if-match']).toBe('"1"');
    expect(await page.getByRole('dialog').count()).toBe(0);
  });

  it('by keys into another bay, where the ticket is drawn anew: the focus goes with it', async () => {
    const page = await board('Nell');
    await ticket(page, 2502).focus();
    await page.keyboard.press('Space');
    await page.keyboard.press('ArrowDown');
    for (let n = 0; n < 7; n += 1) await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Enter');
    await page.getByText('2502 now starts 16:00 in bay 4.').waitFor();
    expect(await focused(page)).toBe(workOrderId(2502));
    await page.keyboard.press('ArrowLeft');
    expect(await focused(page)).toBe(workOrderId(2494));
  });

  it('puts it back on Escape, without asking the server', async () => {
    const page = await board('Nell');
    await ticket(page, 2491).focus();
    await page.keyboard.press('Space');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Escape');
    expect(await said(page).first().textContent()).toBe('2491 put back.');
    expect(lastCall('PATCH')).toBeUndefined();
    expect(await focused(page)).toBe(workOrderId(2491));
  });

  it('by mouse into another bay, and does not open it', async () => {
    mock().board.tickets = mock().board.tickets.filter((one) => one.workOrderNumber !== 2495);
    const page = await board('Nell');
    const grip = await pointOf(page, 3, '12:30');
    const target = await pointOf(page, 2, '17:00');
    await page.mouse.move(grip.x, grip.y);
    await page.mouse.down();
    await page.mouse.move(grip.x + 30, grip.y, { steps: 4 });
    const elsewhere = await pointOf(page, 1, '11:00');
    await page.mouse.move(elsewhere.x, elsewhere.y, { steps: 6 });
    await shoot(page, 'board-drag');
    expect(await page.locator('.tk.lift').count()).toBe(1);
    await page.mouse.move(target.x, target.y, { steps: 6 });
    await page.mouse.up();
    await page.getByText('2491 now starts 15:45 in bay 2.').waitFor();
    expect(assignmentOf(2491)?.bayId).toBe(bayId(2));
    expect(await page.getByRole('dialog').count()).toBe(0);
  });

  it('by tapping: hold to pick up, tap a place to put down, no dragging', async () => {
    const page = await board('Nell', TABLET);
    const box = await ticket(page, 2491).boundingBox();
    const [x, y] = [(box?.x ?? 0) + 50, (box?.y ?? 0) + 30];
    const cdp = await page.context().newCDPSession(page);
    await cdp.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: [{ x, y }] });
    await page.locator('.tk.lift').waitFor();
    // A finger that rests a while longer than it had to.
    await page.waitForTimeout(600);
    await cdp.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
    await shoot(page, 'board-tablet-in-hand');
    await page.waitForTimeout(450);
    const target = await pointOf(page, 4, '16:00');
    await page.touchscreen.tap(target.x, target.y);
    await page.getByText('2491 now starts 15:45 in bay 4.').waitFor();
    expect(assignmentOf(2491)?.bayId).toBe(bayId(4));
  });

  it('by tapping through the open ticket, and with a button to put it back', async () => {
    const page = await board('Nell', TABLET);
    await ticket(page, 2491).tap();
    await page.getByRole('button', { name: 'Pick up and move' }).tap();
    await page.locator('.tk.lift').waitFor();
    await page.getByRole('button', { name: 'Put back' }).tap();
    expect(await page.locator('.tk.lift').count()).toBe(0);
  });

  it('comes back when the bay is taken, and says by what', async () => {
    const page = await board('Nell');
    const before = await ticket(page, 2491).boundingBox();
    await ticket(page, 2491).focus();
    await page.keyboard.press('Space');
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('Enter');
    await page.getByText('2491 put back. Bay 2 is taken by 2488 then. Choose another time or bay.').waitFor();
    await shoot(page, 'board-refused');
    expect(await ticket(page, 2491).boundingBox()).toEqual(before);
    expect(assignmentOf(2491)?.bayId).toBe(bayId(3));
  });

  it('comes back when somebody else moved it first', async () => {
    const page = await board('Nell');
    await ticket(page, 2491).focus();
    await page.keyboard.press('Space');
    await page.keyboard.press('ArrowRight');
    const assignment = assignmentOf(2491);
    if (assignment) assignment.version = 7;
    await page.keyboard.press('Enter');
    await page.getByText(/2491 put back. Somebody changed it first/).waitFor();
  });

  it('comes back when the line is lost, and says so', async () => {
    const page = await board('Nell');
    await ticket(page, 2491).focus();
    await page.keyboard.press('Space');
    await page.keyboard.press('ArrowRight');
    mock().cutLine();
    await page.keyboard.press('Enter');
    await page.getByText(/2491 put back. The server did not answer/).waitFor();
  });

  it('is for those who plan: a technician is told so', async () => {
    const page = await board('Bram');
    await ticket(page, 2491).focus();
    await page.keyboard.press('Space');
    expect(await said(page).first().textContent()).toBe('The front desk and the manager move tickets.');
    expect(await page.locator('.tk.lift').count()).toBe(0);
  });
});
