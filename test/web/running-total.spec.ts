import fc from 'fast-check';
import type { Browser, Page } from 'playwright-core';
import { priceChoice, type AlreadyAgreed, type EstimateLine, type PricingPolicy } from '#libs/estimate';
import { bookHundredths, cents, ppm } from '#libs/kernel';
import { runningTotal, type RunningTotal } from '#server/modules/approvals/page/running-total';
import { pageStyle } from '#server/modules/approvals/page/styles';
import { openBrowser } from './browser.js';

/** Style rules that do sums are only as good as the browser that runs them: here they run, against the server's prices. */
describe('the running total of the owner’s page', () => {
  let browser: Browser;
  let page: Page;
  beforeAll(async () => {
    browser = await openBrowser();
    page = await browser.newPage();
  }, 120_000);
  afterAll(async () => {
    await browser.close();
  });

  const rate = fc.oneof(fc.integer({ min: 1, max: 30_000 }), fc.constantFrom(12_950, 10_000, 333));
  const someLines = fc.tuple(fc.integer({ min: 1, max: 6 }), rate).chain(([count, centsPerHour]) =>
    fc.tuple(
      ...Array.from({ length: count }, (_, at): fc.Arbitrary<EstimateLine> =>
        fc.record({
          id: fc.constant(`line ${at}`),
          rateId: fc.constant('general'),
          rateCentsPerHour: fc.constant(cents(centsPerHour)),
          steps: fc.subarray([0, 1, 2, 3, 4, 5]).map((used) =>
            used.map((step) => ({
              step: `step ${step}`,
              position: 'front',
              hundredths: bookHundredths([40, 33, 75, 1, 150, 260][step] ?? 0),
            })),
          ),
          items: fc.array(
            fc.record({
              id: fc.uuid(),
              kind: fc.constantFrom('part', 'fluid', 'fee'),
              quantityHundredths: fc.integer({ min: 1, max: 900 }),
              unitPriceCents: fc.nat(90_000).map(cents),
              coreCents: fc.nat(5000).map(cents),
            }),
            { maxLength: 2 },
          ),
        }),
      ),
    ),
  );
  const aPolicy: fc.Arbitrary<PricingPolicy> = fc.record({
    taxes: fc
      .array(
        fc.record({
          ratePpm: fc.oneof(fc.nat(250_000), fc.constantFrom(65_000, 72_500, 88_750)).map(ppm),
          on: fc.subarray(['labour', 'part', 'fluid', 'fee', 'supplies'] as const),
        }),
        { maxLength: 2 },
      )
      .map((taxes) => taxes.map((tax, at) => ({ name: `tax ${at}`, ...tax }))),
    taxRounding: fc.constant('invoice' as const),
    supplies: fc.option(
      fc.record({
        ratePpm: fc.nat(150_000).map(ppm),
        floorCents: fc.constantFrom(0, 500).map(cents),
        capCents: fc.option(fc.constantFrom(600, 3500).map(cents), { nil: null }),
      }),
      { nil: null },
    ),
  });
  const given: fc.Arbitrary<AlreadyAgreed> = fc.record({
    steps: fc.subarray([
      { step: 'step 0', position: 'front' },
      { step: 'step 4', position: 'front', hundredths: bookHundredths(71) },
    ]),
    labourCents: fc.constantFrom(0, 12_345).map(cents),
    suppliesCents: fc.constantFrom(0, 741).map(cents),
  });

  async function shown(input: RunningTotal, chosen: readonly boolean[]): Promise<number> {
    const live = runningTotal(input);
    if (live === null) throw new Error('one rate, tax by invoice: the rules are exact');
    const boxes = input.lines.map(
      (_, at) => `<input type="radio" id="y${at}" name="a${at}"${chosen[at] ? ' checked' : ''}>`,
    );
    const style = `${pageStyle()[0]?.text ?? ''}${live.rules}.live{${live.total}}`;
    await page.setContent(`<style>${style}</style><form>${boxes.join('')}<p class="live"></p></form>`);
    return page.evaluate(() => {
      const style = getComputedStyle(document.querySelector('.live') as Element);
      const part = (name: string): number => Number(style.getPropertyValue(name));
      const [whole, rest] = [part('--maj'), part('--min')];
      return rest >= 0 && rest <= 99 ? whole * 100 + rest : Number.NaN;
    });
  }

  it('is the price that the server computes, for any choice under any policy that rounds once', async () => {
    await fc.assert(
      fc.asyncProperty(
        someLines,
        aPolicy,
        given,
        fc.array(fc.boolean(), { minLength: 6, maxLength: 6 }),
        async (lines, policy, agreed, coin) => {
          const chosen = lines.filter((_, at) => coin[at]).map(({ id }) => id);
          const price = priceChoice({ lines, chosen, given: agreed, policy });
          if (!price.ok) throw new Error(price.fault.detail);
          expect(await shown({ lines, given: agreed, policy }, coin)).toBe(price.value.totals.totalCents);
        },
      ),
      { numRuns: 300 },
    );
  }, 120_000);

  it('rounds a half up, not down, where a half is exact', async () => {
    // By hand: 0.50 h at 10.01 = 5.005 → 5.01; tax 10 % of a part of 0.25 = 0.025 → 0.03.
    const lines: EstimateLine[] = [
      {
        id: 'half',
        rateId: 'general',
        rateCentsPerHour: cents(1001),
        steps: [{ step: 'step', position: 'front', hundredths: bookHundredths(50) }],
        items: [{ id: 'bolt', kind: 'part', quantityHundredths: 100, unitPriceCents: cents(25) }],
      },
    ];
    const policy: PricingPolicy = {
      taxes: [{ name: 'tax', ratePpm: ppm(100_000), on: ['part'] }],
      taxRounding: 'invoice',
      supplies: null,
    };
    const input = { lines, policy, given: { steps: [], labourCents: cents(0), suppliesCents: cents(0) } };
    expect(await shown(input, [true])).toBe(501 + 25 + 3);
    expect(await shown(input, [false])).toBe(0);
  });

  it('is not offered where style rules could not be exact', () => {
    const line = (id: string, centsPerHour: number): EstimateLine => ({
      id,
      rateId: id,
      rateCentsPerHour: cents(centsPerHour),
      steps: [{ step: id, position: 'front', hundredths: bookHundredths(50) }],
      items: [],
    });
    const policy: PricingPolicy = { taxes: [], taxRounding: 'invoice', supplies: null };
    const nothing = { steps: [], labourCents: cents(0), suppliesCents: cents(0) };
    expect(runningTotal({ lines: [line('a', 100), line('b', 200)], policy, given: nothing })).toBeNull();
    expect(
      runningTotal({ lines: [line('a', 100)], policy: { ...policy, taxRounding: 'line' }, given: nothing }),
    ).toBeNull();
    const plain = { lines: [line('a', 100)], policy, given: nothing };
    expect(runningTotal(plain)).not.toBeNull();
    const only = line('a', 100);
    const supplies = { ratePpm: ppm(60_000), floorCents: cents(0), capCents: null };
    const inexact: Parameters<typeof runningTotal>[0][] = [
      { ...plain, lines: [{ ...only, noCharge: 'warranty' }] },
      { ...plain, lines: [{ ...only, discount: { labourPpm: ppm(100_000), reason: 'Fleet' } }] },
      {
        ...plain,
        lines: [{ ...only, steps: only.steps.map((step) => ({ ...step, rateCentsPerHour: cents(90) })) }],
      },
      { ...plain, orderDiscount: { cents: cents(500), reason: 'Fleet' } },
      { ...plain, packages: [{ name: 'Front end', lineIds: ['a'], hundredths: bookHundredths(40) }] },
      { ...plain, policy: { ...policy, taxesCombined: true } },
      { ...plain, policy: { ...policy, supplies: { ...supplies, base: 'parts' } } },
    ];
    expect(inexact.map((input) => runningTotal(input))).toEqual(inexact.map(() => null));
    const items = { ...only, discount: { itemsPpm: ppm(50_000), reason: 'Fleet' } };
    expect(runningTotal({ ...plain, lines: [items], policy: { ...policy, supplies } })).not.toBeNull();
  });
});
