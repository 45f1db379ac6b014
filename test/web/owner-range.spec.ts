import type { Browser } from 'playwright-core';
import { EstimateBuilder } from '../builders/estimate.js';
import { aCar, aStay } from '../support/cars.js';
import { shopUnderTest, type ShopUnderTest } from '../support/shop-under-test.js';
import { accessibilityFaults, openBrowser, shoot, sidewaysScroll } from './browser.js';

describe('what it may come to, as an owner sees it', () => {
  let shop: ShopUnderTest;
  let estimate: EstimateBuilder;
  let browser: Browser;
  beforeAll(async () => {
    shop = await shopUnderTest();
    estimate = await EstimateBuilder.withCatalogue(shop);
    browser = await openBrowser();
  }, 120_000);
  afterAll(async () => {
    await browser.close();
    await shop.stop();
  });

  it.each([
    [320, false],
    [390, false],
    [390, true],
    [1280, false],
    [1280, true],
  ])('fits %i pixels, dim %p, and says and draws the same amounts', async (width, dim) => {
    const car = await aCar(shop);
    await shop.sql('update vehicles set value_cents = 310000 where id = $1', [car.vehicleId]);
    const stay = await aStay(shop, car);
    const brakes = await estimate.line(stay.id, 'brakes', {
      spread: { lowHundredths: 200, highHundredths: 420, lowItemsCents: 20_000, highItemsCents: 31_000 },
    });
    await estimate.line(stay.id, 'struts', {
      spread: { lowHundredths: 440, highHundredths: 800, lowItemsCents: 29_000, highItemsCents: 29_000 },
    });
    await shop.frontDesk
      .post(`/lines/${brakes.id}/contingencies`, {
        what: 'A caliper bolt breaks off',
        chancePpm: 300_000,
        hundredths: 250,
        capCents: 45_000,
        items: [],
      })
      .expect(201);
    const sent = await estimate.send(brakes.revisionId);
    const context = await browser.newContext({
      viewport: { width, height: 900 },
      colorScheme: dim ? 'dark' : 'light',
    });
    try {
      const page = await context.newPage();
      const errors: string[] = [];
      page.on('console', (message) => {
        if (message.type() === 'error') errors.push(message.text());
      });
      await page.goto(`${shop.url}/o/${sent.token}`);
      const part = page.locator('.range');
      expect(await part.getByRole('heading').textContent()).toBe('What it may come to');
      const amounts = (await part.locator('.three dd').allTextContents()).map((text) =>
        Number(text.replace(/[^\d]/g, '')),
      );
      expect(amounts).toHaveLength(3);
      expect([...amounts].sort((a, b) => a - b)).toEqual(amounts);
      // The strokes of the drawing stand where the amounts do, between the least and the greatest.
      const [likely, eight] = await part
        .locator('.bar line:not(.base)')
        .evaluateAll((lines) => lines.map((line) => Number(line.getAttribute('x1'))));
      expect(likely).toBeGreaterThan(0);
      expect(eight).toBeGreaterThan(likely ?? 0);
      expect(eight).toBeLessThan(1000);
      expect(await part.textContent()).toMatch(/as a share of that worth\s*\d+\u00a0%/);
      expect(await sidewaysScroll(page)).toBe(0);
      expect(errors).toEqual([]);
      if (width !== 320) await shoot(page, `owner-range-${width}${dim ? '-dim' : ''}`);
      if (width === 390) expect(await accessibilityFaults(page)).toEqual([]);
    } finally {
      await context.close();
    }
  });
});
