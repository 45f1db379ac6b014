import { mkdirSync, existsSync, readFileSync, rmdirSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import packaged from '@sparticuz/chromium';
import { type Browser, type BrowserContext, type Page, chromium } from 'playwright-core';

/**
 * One browser for the pages' tests: the one from the package registry, or the one that CHROMIUM names. Nothing needs
 * to be installed on the machine.
 */
const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--font-render-hinting=none',
];

/**
 * A wait ends before the test that holds it (`testTimeout`), so that what is told is which wait it was. On a machine that
 * three busy programs share with the tests the longest one takes about 2 s.
 */
const WAIT_MS = 15_000;

export async function openBrowser(): Promise<Browser> {
  const executablePath = process.env.CHROMIUM ?? (await packagedChromium());
  return chromium.launch({ executablePath, args: FLAGS, timeout: WAIT_MS });
}

/** The package unpacks into one place of the temporary folder; two test workers must not do that at the same time. */
async function packagedChromium(): Promise<string> {
  const lock = join(tmpdir(), 'bayledger-chromium.lock');
  const giveUp = Date.now() + 60_000;
  while (!taken(lock)) {
    // A lock that a killed run left behind is not waited for longer than unpacking can take.
    if (Date.now() > giveUp) break;
    await new Promise((done) => setTimeout(done, 100));
  }
  try {
    packaged.setGraphicsMode = false;
    return await packaged.executablePath();
  } finally {
    if (existsSync(lock)) rmdirSync(lock);
  }
}

function taken(lock: string): boolean {
  try {
    mkdirSync(lock);
    return true;
  } catch {
    return false;
  }
}

export interface Screen {
  readonly width: number;
  readonly height: number;
  readonly touch?: boolean;
  readonly light?: 'day' | 'dim';
  /** What the page takes for the present; its timers run on. */
  readonly now?: string;
}

export interface OpenPage {
  readonly page: Page;
  readonly context: BrowserContext;
  /** Errors of scripts and of the content policy; a good page has none. */
  readonly errors: readonly string[];
}

/** A page in a context of its own: own cookies, own storage. */
export async function openPage(browser: Browser, origin: string, screen: Screen): Promise<OpenPage> {
  const context = await browser.newContext({
    baseURL: origin,
    viewport: { width: screen.width, height: screen.height },
    hasTouch: screen.touch ?? false,
    reducedMotion: 'reduce',
  });
  if (screen.light) {
    await context.addInitScript((light) => localStorage.setItem('bayledger.light', light), screen.light);
  }
  context.setDefaultTimeout(WAIT_MS);
  const page = await context.newPage();
  if (screen.now !== undefined) await page.clock.setFixedTime(screen.now);
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(String(error)));
  page.on('console', (message) => {
    const network = message.text().startsWith('Failed to load resource');
    if (message.type() === 'error' && !network) errors.push(message.text());
  });
  const opened = { page, context, errors };
  openPages.add(opened);
  context.on('close', () => openPages.delete(opened));
  return opened;
}

const openPages = new Set<OpenPage>();
const TOLD_CHARACTERS = 800;

/** What every open page shows, for the report of a test that failed. */
async function tellOfPages(): Promise<string[]> {
  return Promise.all(
    [...openPages]
      .flatMap(({ context, errors }) => context.pages().map((page) => ({ page, errors })))
      .map(async ({ page, errors }) => {
        const text = await page
          .locator('body')
          .innerText({ timeout: 2_000 })
          .catch((error: unknown) => `cannot be read: ${String(error)}`);
        const shown = text.replace(/\s+/g, ' ').slice(0, TOLD_CHARACTERS);
        return `The page at ${page.url()}\n  shows: ${shown}\n  errors: ${errors.join('; ') || 'none'}`;
      }),
  );
}
// Read by the environment of the tests, which is outside of this module's world.
Object.assign(globalThis, { tellOfPages });

const axePath = createRequire(import.meta.url).resolve('axe-core/axe.min.js');

interface AxeResults {
  readonly violations: readonly {
    readonly id: string;
    readonly impact: string | null;
    readonly help: string;
    readonly nodes: readonly { readonly target: readonly unknown[]; readonly failureSummary?: string }[];
  }[];
}

/** Scans a page with axe-core by WCAG 2.2 A and AA; returns what is serious or critical, one line each. */
export async function accessibilityFaults(page: Page): Promise<string[]> {
  // Evaluated, not added as a script element: the content policy of the pages refuses those.
  await page.evaluate(readFileSync(axePath, 'utf8'));
  const results = await page.evaluate(async () => {
    const { axe } = window as unknown as {
      axe: { run: (root: Document, options: unknown) => Promise<unknown> };
    };
    return axe.run(document, {
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
      resultTypes: ['violations'],
    });
  });
  return (results as AxeResults).violations
    .filter((violation) => violation.impact === 'serious' || violation.impact === 'critical')
    .flatMap((violation) =>
      violation.nodes.map(
        (node) => `${violation.id} at ${String(node.target)}: ${node.failureSummary ?? violation.help}`,
      ),
    );
}

/** Keeps a picture of a page among the artefacts of the run. */
export async function shoot(page: Page, name: string, fullPage = false): Promise<string> {
  const path = resolve(import.meta.dirname, '../artefacts', `${name}.png`);
  await page.evaluate(() => document.fonts.ready.then(() => undefined));
  await page.screenshot({ path, fullPage });
  return path;
}

/** How far a page scrolls sideways, in pixels; 0 is right. */
export const sidewaysScroll = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

/** Cumulative layout shift since the page was opened, shifts after input left out (as web vitals count it). */
export const layoutShift = (page: Page): Promise<number> =>
  page.evaluate(
    () =>
      new Promise<number>((done) => {
        let sum = 0;
        const observer = new PerformanceObserver((list) => {
          for (const entry of list.getEntries() as (PerformanceEntry & {
            value: number;
            hadRecentInput: boolean;
          })[]) {
            if (!entry.hadRecentInput) sum += entry.value;
          }
        });
        observer.observe({ type: 'layout-shift', buffered: true });
        setTimeout(() => done(sum), 200);
      }),
  );
