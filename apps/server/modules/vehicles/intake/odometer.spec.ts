import fc from 'fast-check';
import { internationalPhone } from './phone.js';
import { odometerWentBack, type Distance } from './odometer.js';

describe('an odometer', () => {
  it('goes back when it reads less, and not when it stands still', () => {
    expect(odometerWentBack({ reading: 1000, unit: 'km' }, { reading: 999, unit: 'km' })).toBe(true);
    expect(odometerWentBack({ reading: 1000, unit: 'km' }, { reading: 1000, unit: 'km' })).toBe(false);
  });

  it('may change its unit: 100 000 km are 62 137 miles and a bit (1 mi = 1.609344 km)', () => {
    expect(odometerWentBack({ reading: 100_000, unit: 'km' }, { reading: 62_137, unit: 'mi' })).toBe(false);
    expect(odometerWentBack({ reading: 100_000, unit: 'km' }, { reading: 62_136, unit: 'mi' })).toBe(true);
    expect(odometerWentBack({ reading: 62_137, unit: 'mi' }, { reading: 99_999, unit: 'km' })).toBe(false);
    expect(odometerWentBack({ reading: 62_137, unit: 'mi' }, { reading: 99_998, unit: 'km' })).toBe(true);
  });

  it('never goes back by being read again in the other unit, cut off to whole ones', () => {
    const distance = fc.record<Distance>({
      reading: fc.integer({ min: 0, max: 3_000_000 }),
      unit: fc.constantFrom('km', 'mi'),
    });
    fc.assert(
      fc.property(distance, ({ reading, unit }) => {
        const other =
          unit === 'km'
            ? { unit: 'mi' as const, reading: Number((BigInt(reading) * 1_000_000n) / 1_609_344n) }
            : { unit: 'km' as const, reading: Number((BigInt(reading) * 1_609_344n) / 1_000_000n) };
        expect(odometerWentBack({ reading, unit }, other)).toBe(false);
      }),
    );
  });
});

describe('a telephone number', () => {
  it('without a country is one of the shop, and what cannot be one is kept as typed only', () => {
    // Numbers set aside for fiction: 555-0100 to 0199 in North America; 020 7946 0000 to 0999 in London (Ofcom).
    expect(internationalPhone('(202) 555-0123', '+12025550100')).toBe('+12025550123');
    expect(internationalPhone('+44 20 7946 0018', '+12025550100')).toBe('+442079460018');
    expect(internationalPhone('020 7946 0018', '+442079460000')).toBe('+442079460018');
    expect(internationalPhone('(202) 555-0123', null)).toBeNull();
    expect(internationalPhone('555 0123', '+12025550100')).toBeNull();
    expect(internationalPhone('ask at the office', '+12025550100')).toBeNull();
    expect(internationalPhone(null, '+12025550100')).toBeNull();
  });
});
