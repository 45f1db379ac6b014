import type { Browser, Page } from 'playwright-core';
import type { Ticket } from '../../apps/web/src/api/types.js';
import { openBrowser } from './browser.js';
import { workOrderId } from './mock-data.js';
import { type Call, MockServer } from './mock-server.js';
import { DESK, boardOf } from './page-steps.js';

export interface Bench {
  /** The stand-in server of the test that runs. */
  readonly mock: () => MockServer;
  /** Its board, open and read; a script error or a breach of the content policy fails the test at its end. */
  readonly board: (name: string, screen?: typeof DESK) => Promise<Page>;
  readonly assignmentOf: (n: number) => Ticket['assignment'];
  readonly lastCall: (method: string) => Call | undefined;
}

/** One browser for a file of tests, and a fresh stand-in server for each test. */
export function setUpBench(): Bench {
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
  return {
    mock: () => mock,
    board: async (name, screen = DESK) => {
      const { page, context, errors } = await boardOf(browser, origin, name, screen);
      closing.push(async () => {
        expect(errors).toEqual([]);
        await context.close();
      });
      return page;
    },
    assignmentOf: (n) =>
      mock.board.tickets.find((one) => one.workOrderId === workOrderId(n))?.assignment ?? null,
    lastCall: (method) => mock.calls.findLast((call) => call.method === method),
  };
}

/** The work order that has the focus. */
export const focused = (page: Page): Promise<string | undefined> =>
  page.evaluate(() =>
    document.activeElement instanceof HTMLElement ? document.activeElement.dataset.ticket : undefined,
  );
