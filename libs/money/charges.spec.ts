import { cents, ppm } from '#libs/kernel';
import { extend } from './extend.js';
import { marginOf } from './margin-of.js';
import { markUp } from './mark-up.js';
import { suppliesCharge } from './supplies-charge.js';

describe('extend', () => {
  // Exact products worked by hand: 1.3 x 129.50 = 168.350, 0.7 x 94.95 = 66.465, 0.1 x 117.35 = 11.735, 1.25 x 98.77 = 123.4625,
  // 2.5 x 119.99 = 299.975.
  it.each([
    [130, 12950, 16835],
    [70, 9495, 6647],
    [10, 11735, 1174],
    [125, 9877, 12346],
    [250, 11999, 29998],
    [-70, 9495, -6647],
    [0, 9495, 0],
  ])('%i hundredths at %i cents are %i cents', (quantity, price, total) => {
    expect(extend(quantity, cents(price))).toBe(total);
  });

  it('stays exact where the product is past 2^53', () => {
    // 30,000,000.01 x 1,000,000.01: the product 30000000310000.0001 rounds to 3000000031000000 cents.
    expect(extend(3_000_000_001, cents(100_000_001))).toBe(3_000_000_031_000_000);
  });
});

describe('markUp and marginOf', () => {
  it('sublet work of 220.00 with 15 percent on top sells at 253.00, a margin of 13.0435 percent', () => {
    expect(markUp(cents(22000), ppm(150_000))).toBe(25300);
    expect(marginOf(cents(22000), cents(25300))).toBe(130_435);
  });

  // margin = markup / (1 + markup), the trade's definition.
  it.each([
    [250_000, 200_000],
    [500_000, 333_333],
    [1_000_000, 500_000],
    [1_500_000, 600_000],
    [2_000_000, 666_667],
  ])('a markup of %i ppm is a margin of %i ppm', (markup, margin) => {
    const cost = cents(30_000);
    expect(marginOf(cost, markUp(cost, ppm(markup)))).toBe(margin);
  });

  it('a price of nothing has no margin', () => {
    expect(marginOf(cents(100), cents(0))).toBeNull();
  });
});

describe('suppliesCharge', () => {
  // Worked by hand: 6 percent of labour, at most 35.00. 583.34 x 6 % = 35.0004.
  it.each([
    [0, 0],
    [12345, 741],
    [58334, 3500],
    [90000, 3500],
    [-12345, -741],
  ])('labour of %i cents carries %i cents', (labour, charge) => {
    expect(suppliesCharge({ labourCents: cents(labour), ratePpm: ppm(60_000), capCents: cents(3500) })).toBe(
      charge,
    );
  });

  it('the floor is charged once there is labour, and the cap wins over it', () => {
    const terms = { ratePpm: ppm(60_000), floorCents: cents(500) };
    expect(suppliesCharge({ ...terms, labourCents: cents(1000) })).toBe(500);
    expect(suppliesCharge({ ...terms, labourCents: cents(0) })).toBe(0);
    expect(suppliesCharge({ ...terms, labourCents: cents(1000), capCents: cents(300) })).toBe(300);
    expect(suppliesCharge({ ...terms, labourCents: cents(100_000) })).toBe(6000);
  });
});
