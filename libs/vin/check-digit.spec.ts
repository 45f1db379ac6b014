import fc from 'fast-check';
import { checkDigit } from './check-digit.js';

describe('checkDigit', () => {
  // Published worked examples, each recomputed: [VIN, digit, source].
  it.each([
    ['1G4AH59H45G118341', '4', '49 CFR 565, sample table of the older edition'],
    ['1J9RP1A36A1644345', '6', 'NHTSA, Outline for New Manufacturer Information'],
    ['JH2RC3605MM101581', '5', 'worked example on the weighted sum 280'],
    ['1FAPP64R7LH123456', '7', 'tbirdregistry.com, check digit page'],
    ['1G1BL52P7TR115520', '7', 'tech.firebirdv6.com, VIN coding page'],
    ['1G1BN53E6NW128495', '6', 'published worked example'],
    ['1M8GDM9AXKP042788', 'X', 'widely published example with X'],
    ['11111111111111111', '1', 'the sum of the weights is 89'],
  ])('of %s is %s', (vin, digit) => {
    expect(checkDigit(vin)).toBe(digit);
    expect(vin.charAt(8)).toBe(digit);
  });

  it('says nothing about what is not a VIN', () => {
    for (const text of [
      '',
      '1G4AH59H45G11834',
      '1G4AH59H45G1183411',
      '1G4IH59H45G118341',
      '1g4ah59h45g118341',
    ]) {
      expect(checkDigit(text)).toBeNull();
    }
  });

  it('does not depend on the ninth character', () => {
    for (const ninth of 'ABCXYZ0123456789') expect(checkDigit(`1G4AH59H${ninth}5G118341`)).toBe('4');
  });

  it('catches every single mistyped digit', () => {
    // Weights are prime to 11 and two digits differ by less than 11, so the sum always changes.
    const serial = fc.stringMatching(/^[0-9]{17}$/);
    fc.assert(
      fc.property(serial, fc.nat(16), fc.integer({ min: 1, max: 9 }), (vin, place, shift) => {
        if (place === 8) return;
        const wrong = (Number(vin.charAt(place)) + shift) % 10;
        const mistyped = vin.slice(0, place) + String(wrong) + vin.slice(place + 1);
        expect(checkDigit(mistyped)).not.toBe(checkDigit(vin));
      }),
      { numRuns: 1000 },
    );
  });
});
