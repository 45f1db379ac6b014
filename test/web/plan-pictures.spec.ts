import { accessibilityFaults, layoutShift, shoot, sidewaysScroll, type Screen } from './browser.js';
import { PLAN_DESK, setUpPlan } from './plan-bench.js';
import { PHONE } from './page-steps.js';

const { plan } = setUpPlan();

const screens: readonly [string, Screen][] = [
  ['desk-day', PLAN_DESK],
  ['desk-dim', { ...PLAN_DESK, width: 1480, light: 'dim' }],
  ['tablet-upright-day', { ...PLAN_DESK, width: 820, height: 1180, touch: true }],
  ['phone-day', PHONE],
  ['small-phone-dim', { ...PHONE, width: 320, height: 640, light: 'dim' }],
];

/** The plan on every kind of screen: kept as a picture, scanned for accessibility, no sideways scroll, no jumping. */
describe('the plan on every screen', () => {
  it.each(screens)(
    'on the %s',
    async (name, screen) => {
      const page = await plan('Ines', screen);
      await page.getByRole('button', { name: 'Look for a better plan' }).waitFor();
      await page.getByText('1 more reason').first().waitFor();
      await page.getByText(/Nothing had to change/).waitFor();
      expect(await layoutShift(page)).toBeLessThan(0.02);
      await shoot(page, `plan-${name}`, true);
      expect(await sidewaysScroll(page)).toBe(0);
      expect(await accessibilityFaults(page)).toEqual([]);
    },
    60_000,
  );
});
