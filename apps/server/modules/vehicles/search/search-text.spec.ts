import fc from 'fast-check';
import { fold, joined } from './fold.js';
import { searchTerms } from './search-terms.js';
import { customerSearchText, vehicleSearchText } from './search-text.js';

const customer = {
  displayName: "Zoë O'Brien-Tarle",
  phone: '(202) 555-0123',
  phoneE164: '+12025550123',
  email: 'Zoe_T@example.test',
};

describe('what a search is made of', () => {
  it('a customer is found by words without accents and by digits', () => {
    expect(customerSearchText(customer)).toBe(' zoe obrien tarle 12025550123 t@example.test ');
    expect(customerSearchText({ ...customer, phone: '020 7946 0018', phoneE164: '+442079460018' })).toContain(
      ' 442079460018 02079460018 ',
    );
    expect(customerSearchText({ displayName: '…', phone: null, phoneE164: null, email: null })).toBe(' ');
  });

  it('a vehicle by plate and VIN without their gaps, and by its owner', () => {
    const vehicle = {
      plate: 'ab-123 C',
      vin: '1G4AH59H45G118341',
      make: 'Merelin',
      model: 'Strand 2.0',
      modelYear: 1998,
      colour: null,
    };
    expect(vehicleSearchText(vehicle, 'Zoë')).toBe(' ab123c merelin strand 2.0 1998 1g4ah59h45g118341 zoe ');
  });

  it('what is typed becomes words, the same run together, and a second try', () => {
    expect(searchTerms('555 0123')).toEqual({ words: ['555', '0123'], joined: '5550123', canBeAlike: false });
    expect(searchTerms('AB-123 c')).toEqual({
      words: ['ab', '123', 'c'],
      joined: 'ab123c',
      canBeAlike: false,
    });
    expect(searchTerms('Tarle')).toEqual({ words: ['tarle'], joined: null, canBeAlike: true });
    expect(searchTerms('x')).toBeUndefined();
    expect(searchTerms(' - % _ ')).toBeUndefined();
    expect(searchTerms('..')).toBeUndefined();
  });

  it('nothing that means something in a pattern survives, and folding twice changes nothing', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 60 }), (text) => {
        expect(fold(text)).not.toMatch(/[%_\\'"]/);
        expect(fold(fold(text))).toBe(fold(text));
        expect(joined(text)).not.toMatch(/[^\p{L}\p{N}]/u);
      }),
      { numRuns: 2000 },
    );
  });

  it('any word of a name, typed in any case, is inside what is stored', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', minLength: 1, maxLength: 30 }), (displayName) => {
        const text = customerSearchText({ displayName, phone: null, phoneE164: null, email: null });
        const terms = searchTerms(displayName.toUpperCase().toLowerCase());
        for (const word of terms?.words ?? []) expect(text).toContain(` ${word} `);
      }),
      { numRuns: 1000 },
    );
  });
});
