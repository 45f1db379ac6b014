import fc from 'fast-check';
import { cents, ppm } from '#libs/kernel';
import type { Breakdown } from './breakdown.js';
import { PRICE_RULES, priceItem } from './item-price.js';
import type { ItemPrice, ItemPriceRules, ItemToPrice } from './item-price.js';

const SHOP: ItemPriceRules = {
  matrix: {
    method: 'marginal',
    bands: [
      { fromCents: cents(0), multiplierPpm: ppm(3_000_000) },
      { fromCents: cents(1000), multiplierPpm: ppm(2_200_000) },
    ],
  },
  defaultMarginPpm: ppm(400_000),
  subletMarkupPpm: ppm(150_000),
};
const NO_RULES: ItemPriceRules = { matrix: null, defaultMarginPpm: null, subletMarkupPpm: ppm(0) };

const priced = (item: ItemToPrice, shop = SHOP): ItemPrice => {
  const price = priceItem(item, shop);
  if (!price.ok) throw new Error(price.fault.detail);
  return price.value;
};
const amountOf = (node: Breakdown): number => ('cents' in node ? node.cents : 0);

describe('the price of an item by its rule', () => {
  // By hand: 10.00 x 3 + 0.01 x 2.2; 22.00 / 0.6; 220.00 + 15 % (a margin of 13.0435 %, the trade's arithmetic for sublet work).
  it.each<[string, ItemToPrice, number, number | null]>([
    ['entered', { rule: 'entered', unitPriceCents: cents(1999) }, 1999, null],
    [
      'at its list price',
      { rule: 'list', listCents: cents(5000), unitCostCents: cents(3000) },
      5000,
      400_000,
    ],
    ['by the price matrix', { rule: 'matrix', unitCostCents: cents(1001) }, 3002, 666_556],
    ['by the usual margin', { rule: 'margin', unitCostCents: cents(2200) }, 3667, 400_055],
    [
      'by its own margin',
      { rule: 'margin', unitCostCents: cents(7500), marginPpm: ppm(250_000) },
      10_000,
      250_000,
    ],
    ['as sublet work', { rule: 'sublet-markup', unitCostCents: cents(22_000) }, 25_300, 130_435],
    ['for nothing', { rule: 'margin', unitCostCents: cents(0) }, 0, null],
  ])('%s', (_, item, price, margin) => {
    expect(priced(item)).toMatchObject({ unitPriceCents: price, marginPpm: margin });
  });

  it('unfolds down to what was entered', () => {
    expect(priced({ rule: 'matrix', unitCostCents: cents(1001) }).breakdown).toEqual({
      figure: 'unit price',
      cents: 3002,
      rule: 'price matrix: each part of the cost times the multiplier of its band, added up and rounded half up once',
      inputs: [
        { figure: 'cost', cents: 1001, rule: 'as entered', inputs: [] },
        { figure: 'band', of: 'from 0.00', cents: 3000, rule: '10.00 × 3', inputs: [] },
        { figure: 'band', of: 'from 10.00', cents: 2, rule: '0.01 × 2.2', inputs: [] },
      ],
    });
    expect(priced({ rule: 'margin', unitCostCents: cents(2200) }).breakdown).toMatchObject({
      cents: 3667,
      rule: 'the cost divided by what a margin of 40 % leaves of the price, rounded half up',
      inputs: [{ figure: 'cost', cents: 2200 }],
    });
    expect(priced({ rule: 'sublet-markup', unitCostCents: cents(22_000) }).breakdown.rule).toBe(
      'the cost and 15 % of it, rounded half up',
    );
  });

  it.each<[string, ItemToPrice, ItemPriceRules, string, string]>([
    ['no price entered', { rule: 'entered' }, SHOP, 'price-missing', '/unitPriceCents'],
    ['no list price', { rule: 'list', unitCostCents: cents(1) }, SHOP, 'list-missing', '/listCents'],
    [
      'no cost for the matrix',
      { rule: 'matrix', unitCostCents: null },
      SHOP,
      'cost-missing',
      '/unitCostCents',
    ],
    ['no cost for a margin', { rule: 'margin' }, SHOP, 'cost-missing', '/unitCostCents'],
    ['no cost for sublet work', { rule: 'sublet-markup' }, SHOP, 'cost-missing', '/unitCostCents'],
    ['no matrix', { rule: 'matrix', unitCostCents: cents(1) }, NO_RULES, 'matrix-missing', '/priceRule'],
    ['no margin', { rule: 'margin', unitCostCents: cents(1) }, NO_RULES, 'margin-missing', '/marginPpm'],
    [
      'the whole price as margin',
      { rule: 'margin', unitCostCents: cents(1), marginPpm: ppm(1_000_000) },
      SHOP,
      'margin-invalid',
      '/marginPpm',
    ],
    [
      'a cost below nothing',
      { rule: 'matrix', unitCostCents: cents(-1) },
      SHOP,
      'figure-invalid',
      '/unitCostCents',
    ],
    [
      'a slip in the list price',
      { rule: 'list', listCents: cents(100_000_001) },
      SHOP,
      'figure-invalid',
      '/listCents',
    ],
    [
      'a price past all sense',
      { rule: 'matrix', unitCostCents: cents(100_000_000) },
      SHOP,
      'figure-invalid',
      '/unitCostCents',
    ],
  ])('is refused for %s, with the field and the remedy', (_, item, shop, code, pointer) => {
    const refused = priceItem(item, shop);
    expect(refused).toMatchObject({ ok: false, fault: { code, fields: [{ pointer }] } });
    expect(refused.ok ? '' : refused.fault.detail).toMatch(/\.$/);
  });

  it('a bad matrix is refused as such', () => {
    const shop: ItemPriceRules = { ...SHOP, matrix: { method: 'marginal', bands: [] } };
    expect(priceItem({ rule: 'matrix', unitCostCents: cents(1) }, shop)).toMatchObject({
      ok: false,
      fault: { code: 'matrix-invalid' },
    });
  });

  it('never falls as the cost rises, whatever the rule, and its bands add up to it', () => {
    const rule = fc.constantFrom(...PRICE_RULES);
    fc.assert(
      fc.property(rule, fc.nat(1_000_000), fc.nat(50_000), fc.nat(900_000), (by, cost, more, margin) => {
        const at = (unitCostCents: number): ItemPrice =>
          priced({
            rule: by,
            unitCostCents: cents(unitCostCents),
            unitPriceCents: cents(100),
            listCents: cents(200),
            marginPpm: ppm(margin),
          });
        const price = at(cost);
        expect(at(cost + more).unitPriceCents).toBeGreaterThanOrEqual(price.unitPriceCents);
        const bands = price.breakdown.inputs.filter(({ figure }) => figure === 'band');
        const added = bands.reduce((sum, band) => sum + amountOf(band), 0);
        expect(by === 'matrix' ? added : amountOf(price.breakdown)).toBe(price.unitPriceCents);
      }),
      { numRuns: 1000 },
    );
  });
});
