import type { Browser, Page } from 'playwright-core';
import { openBrowser, openPage, type Screen } from './browser.js';
import { NOW } from './mock-data.js';
import { ORDER } from './mock-ids.js';
import { MockServer } from './mock-server.js';
import { openSigned } from './page-steps.js';

export const DESK_1280: Screen = { width: 1280, height: 900, now: NOW };

export interface EstimateBench {
  readonly mock: () => MockServer;
  /** The estimate of the mock's repair order, open and computed; a script error fails the test at its end. */
  readonly estimate: (screen?: Screen, who?: string) => Promise<Page>;
}

/** One browser for a file of tests, and a fresh stand-in server for each test. */
export function setUpEstimate(): EstimateBench {
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
    estimate: async (screen = DESK_1280, who = 'Nell') => {
      const { page, context, errors } = await openPage(browser, origin, screen);
      closing.push(async () => {
        expect(errors).toEqual([]);
        await context.close();
      });
      await openSigned(page, `/estimate?repairOrder=${ORDER}`, who);
      return page;
    },
  };
}
