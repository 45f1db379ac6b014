import { benefitOf, FIRST_WEIGHTS } from './benefit-of.js';

describe('what a line is worth to have done', () => {
  it('follows the shop’s own weights, and says so', () => {
    expect(benefitOf({ verdict: 'repair', mayDrive: 'no', consequence: 'harm' })).toEqual({
      benefit: 1500,
      why: 'The car may not be driven as it is; waiting may harm people. This shop weighs it 1000 + 500 = 1500.',
    });
    const weights = { ...FIRST_WEIGHTS, watch: 7 };
    expect(benefitOf({ verdict: 'watch', mayDrive: 'yes' }, weights)).toEqual({
      benefit: 7,
      why: 'This could be left for now and looked at again. This shop weighs it 7.',
    });
  });

  it('falls from unsafe to sound', () => {
    const worths = [
      benefitOf({ verdict: 'repair', mayDrive: 'no' }),
      benefitOf({ verdict: 'repair', mayDrive: 'to-the-shop-only' }),
      benefitOf({ verdict: 'repair', mayDrive: 'yes' }),
      benefitOf({ verdict: null, mayDrive: null }),
      benefitOf({ verdict: 'watch', mayDrive: 'yes' }),
      benefitOf({ verdict: 'sound', mayDrive: null }),
    ].map(({ benefit }) => benefit);
    expect(worths).toEqual([...worths].sort((a, b) => b - a));
    expect(new Set(worths).size).toBe(worths.length);
  });
});
