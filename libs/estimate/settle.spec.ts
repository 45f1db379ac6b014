import fc from 'fast-check';
import { cents, ppm } from '#libs/kernel';
import type { Breakdown } from './breakdown.js';
import { SUM } from './breakdown.js';
import { settle } from './settle.js';
import type { Account } from './settle.js';
import { depositAsked } from './settle-deposit.js';

const paid = (...amounts: number[]) =>
  amounts.map((amount, at) => ({ of: `receipt ${at + 1}`, cents: cents(amount) }));
const amountOf = (node: Breakdown): number => ('cents' in node ? node.cents : 0);
const wrongSums = (node: Breakdown): Breakdown[] => [
  ...(node.rule === SUM && node.inputs.reduce((sum, input) => sum + amountOf(input), 0) !== amountOf(node)
    ? [node]
    : []),
  ...node.inputs.flatMap(wrongSums),
];

describe('how an account stands', () => {
  // By hand. The third: a part of 189.99 with a core deposit of 45.00 was paid in full, and the old part came back.
  it.each<[string, Account, number, number]>([
    [
      'a deposit and two payments settle it',
      { totalCents: cents(100_000), deposits: paid(30_000), payments: paid(50_000, 20_000), credits: [] },
      0,
      0,
    ],
    [
      'what is left is due',
      { totalCents: cents(23_499), deposits: paid(5000), payments: [], credits: [] },
      18_499,
      0,
    ],
    [
      'a returned core is paid back',
      { totalCents: cents(23_499), deposits: [], payments: paid(23_499), credits: paid(4500) },
      0,
      4500,
    ],
    [
      'a returned core lowers what is due to 189.99',
      { totalCents: cents(23_499), deposits: [], payments: [], credits: paid(4500) },
      18_999,
      0,
    ],
  ])('%s', (_, account, due, payBack) => {
    expect(settle(account)).toMatchObject({ dueCents: due, payBackCents: payBack });
  });

  it('is either due or to be paid back, and its breakdown adds up', () => {
    const amounts = fc.array(fc.nat(200_000), { maxLength: 4 }).map((some) => paid(...some));
    fc.assert(
      fc.property(
        fc.nat(500_000).map(cents),
        amounts,
        amounts,
        amounts,
        (totalCents, deposits, payments, credits) => {
          const { dueCents, payBackCents, breakdown } = settle({ totalCents, deposits, payments, credits });
          expect(Math.min(dueCents, payBackCents)).toBe(0);
          expect(amountOf(breakdown)).toBe(dueCents - payBackCents);
          expect(wrongSums(breakdown)).toEqual([]);
          // Paying what is due, or paying back what is owed, settles it.
          const after = settle({
            totalCents: cents(totalCents + payBackCents),
            deposits,
            payments: [...payments, ...paid(dueCents)],
            credits,
          });
          expect([after.dueCents, after.payBackCents]).toEqual([0, 0]);
        },
      ),
    );
  });

  it('takes no negative payment', () => {
    expect(() => settle({ totalCents: cents(100), deposits: [], payments: paid(-5), credits: [] })).toThrow(
      RangeError,
    );
  });
});

describe('the deposit that a shop asks for', () => {
  const base = { totalCents: cents(86_725), specialOrderCents: cents(31_999) };
  // By hand: 30 % of 867.25 is 260.175, half of 319.99 is 159.995.
  it('is a part of the total, of the parts that are ordered for this vehicle, or nothing', () => {
    expect(depositAsked(base, { of: 'total', ratePpm: ppm(300_000) }).cents).toBe(26_018);
    expect(depositAsked(base, { of: 'special-order', ratePpm: ppm(500_000) }).cents).toBe(16_000);
    expect(depositAsked(base, { of: 'nothing' })).toMatchObject({
      cents: 0,
      breakdown: { rule: 'this shop asks for no deposit' },
    });
    expect(depositAsked(base, { of: 'special-order', ratePpm: ppm(500_000) }).breakdown).toMatchObject({
      cents: 16_000,
      rule: '50 % of 319.99, rounded half up',
      inputs: [
        { figure: 'special-order parts', cents: 31_999 },
        { figure: 'total', cents: 86_725 },
      ],
    });
  });

  it('is never more than the total, and nothing where nothing is to be paid', () => {
    const dear = { totalCents: cents(100), specialOrderCents: cents(31_999) };
    expect(depositAsked(dear, { of: 'special-order', ratePpm: ppm(500_000) })).toMatchObject({
      cents: 100,
      breakdown: { rule: '50 % of 319.99, rounded half up, but never more than the total' },
    });
    expect(
      depositAsked({ ...dear, totalCents: cents(0) }, { of: 'total', ratePpm: ppm(1_000_000) }).cents,
    ).toBe(0);
  });
});
