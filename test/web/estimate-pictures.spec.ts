import { accessibilityFaults, layoutShift, shoot, sidewaysScroll, type Screen } from './browser.js';
import { DESK_1280, setUpEstimate } from './estimate-bench.js';
import { PHONE } from './page-steps.js';

const { estimate } = setUpEstimate();

const screens: readonly [string, Screen][] = [
  ['desk-day', DESK_1280],
  ['desk-dim', { ...DESK_1280, light: 'dim' }],
  ['tablet-upright-day', { ...DESK_1280, width: 820, height: 1180, touch: true }],
  ['phone-day', PHONE],
  ['small-phone-dim', { ...PHONE, width: 320, height: 640, light: 'dim' }],
  ['wall-dim', { ...DESK_1280, width: 1920, height: 1080, light: 'dim' }],
];

/** The estimate on every kind of screen: kept as a picture, scanned for accessibility, no sideways scroll, no jumping. */
describe('the estimate on every screen', () => {
  it.each(screens)(
    'on the %s',
    async (name, screen) => {
      const page = await estimate(screen);
      await page.getByText('What moves it most').waitFor();
      await page.getByRole('slider').waitFor();
      expect(await layoutShift(page)).toBeLessThan(0.02);
      await page.getByLabel('All in, tax included').fill('1,400');
      await page.getByRole('heading', { name: 'The car can be driven' }).waitFor();
      await page.evaluate(() => scrollTo(0, 0));
      await shoot(page, `estimate-${name}`, true);
      expect(await sidewaysScroll(page)).toBe(0);
      expect(await accessibilityFaults(page)).toEqual([]);
    },
    60_000,
  );
});
