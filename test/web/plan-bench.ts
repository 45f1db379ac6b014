import type { Browser, Page } from 'playwright-core';
import { openBrowser, openPage, type Screen } from './browser.js';
import { NOW } from './mock-data.js';
import { MockServer } from './mock-server.js';
import { openSigned } from './page-steps.js';

export const PLAN_DESK: Screen = { width: 1280, height: 900, now: NOW };

export interface PlanBench {
  readonly mock: () => MockServer;
  /** The plan's page as somebody sees it, read; a script error fails the test at its end. */
  readonly plan: (who?: string, screen?: Screen) => Promise<Page>;
}

/** One browser for a file of tests, and a fresh stand-in server for each test. */
export function setUpPlan(): PlanBench {
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
    plan: async (who = 'Nell', screen = PLAN_DESK) => {
      const { page, context, errors } = await openPage(browser, origin, screen);
      closing.push(async () => {
        expect(errors).toEqual([]);
        await context.close();
      });
      await openSigned(page, '/plan', who);
      await page.getByRole('heading', { level: 1 }).waitFor();
      return page;
    },
  };
}
