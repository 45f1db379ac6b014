import { modelYears } from './model-years.js';

const withYearCode = (code: string, seventh = '1') => `111111${seventh}11${code}1111111`;

describe('modelYears', () => {
  // 49 CFR 565.15(d)(1), table VII (from memory; L, N and T confirmed by published worked examples).
  it('reads the whole table', () => {
    const codes = 'A B C D E F G H J K L M N P R S T V W X Y 1 2 3 4 5 6 7 8 9'.split(' ');
    expect(codes).toHaveLength(30);
    codes.forEach((code, index) => {
      expect(modelYears(withYearCode(code))).toEqual([1980 + index, 2010 + index]);
    });
  });

  it.each(['I', 'O', 'Q', 'U', 'Z', '0', ''])('%j is no year code', (code) => {
    expect(modelYears(code === '' ? '123' : withYearCode(code))).toEqual([]);
  });

  it('the seventh character picks the cycle of a light vehicle and of nothing else', () => {
    // 49 CFR 565.15(b): a letter there in light vehicles under the 2008 rule.
    expect(modelYears('1J9RP1A36A1644345', 'light')).toEqual([2010]);
    expect(modelYears('1G4AH59H45G118341', 'light')).toEqual([2005]);
    // A motorcycle has no such rule, so a digit there must not decide.
    expect(modelYears('JH2RC3605MM101581', 'other')).toEqual([1991, 2021]);
    expect(modelYears('JH2RC3605MM101581')).toEqual([1991, 2021]);
  });
});
