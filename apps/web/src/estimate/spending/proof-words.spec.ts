import { proofWords } from './proof-words.js';

describe('what is said about a set of lines', () => {
  it('says that nothing better exists only when that is proven', () => {
    expect(proofWords({ proven: true, benefit: 100, upperBound: 100 })).toMatch(/No other set/);
    expect(proofWords({ proven: false, benefit: 200, upperBound: 205 })).toMatch(/at most 3 % more/);
    expect(proofWords({ proven: false, benefit: 0, upperBound: 10 })).toMatch(/at most 100 % more/);
  });
});
