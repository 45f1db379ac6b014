import fc from 'fast-check';
import { checkDigit } from './check-digit.js';
import { checkVin } from './check-vin.js';

const REGULATION = '49 CFR 565.13 and 565.15 (formerly 565.4 and 565.6), tables III to VI';

describe('VINs that are right', () => {
  // [VIN, check digit, model year if the vehicle is light]. Published examples first (see check-digit.spec.ts), then synthetic ones
  // made with a separate program from 49 CFR 565.15(c), for every check digit.
  it.each([
    ['1G4AH59H45G118341', '4', 2005],
    ['1J9RP1A36A1644345', '6', 2010],
    ['1FAPP64R7LH123456', '7', 1990],
    ['1G1BL52P7TR115520', '7', 1996],
    ['1M8GDM9AXKP042788', 'X', 1989],
    ['11111111111111111', '1', 2001],
    ['9Z9GPR2R0WRA04550', '0', 1998],
    ['9Z9LN3721KRL98497', '1', 1989],
    ['9Z91GFUH380H84298', '3', 2038],
    ['9Z9044FF43M452812', '4', 2033],
    ['9Z92NDCR6WH865719', '6', 2028],
    ['9Z9MSL6V74V355561', '7', 2004],
    ['9Z90MSVA955X52675', '9', 2035],
    ['9Z9FGY1EXP2228520', 'X', 1993],
  ])('%s is valid', (vin, digit, lightYear) => {
    const check = checkVin(vin);
    expect(check).toMatchObject({ verdict: 'valid', reason: 'VALID', normalised: vin, checkDigit: digit });
    expect(check.modelYears).toHaveLength(2);
    expect(check.modelYears).toContain(lightYear);
    expect(checkVin(vin, undefined, 'light').modelYears).toEqual([lightYear]);
    expect(checkVin(vin, lightYear)).toMatchObject({ verdict: 'valid', modelYears: [lightYear] });
  });

  it('a known model year picks its cycle even against the seventh character', () => {
    expect(checkVin('1G4AH59H45G118341', 2035, 'light')).toMatchObject({
      verdict: 'valid',
      modelYears: [2035],
    });
  });

  it('a model year that the VIN cannot mean leaves the VIN right and says so', () => {
    const check = checkVin('1G4AH59H45G118341', 1999);
    expect(check).toMatchObject({ verdict: 'valid', reason: 'YEAR_DIFFERS', modelYears: [2005, 2035] });
    expect(check.sentence).toContain('2005 or 2035, not 1999');
  });

  it('letters of one value can be swapped unseen, which is why a match proves little', () => {
    // Arithmetic on the transliteration table.
    const pairs = [
      ['1G4AA59H95G118341', '1G4AJ59H95G118341'],
      ['1G4AH59H45G118341', '1G4AY59H45G118341'],
      ['1G4AS59H25G118341', '1G4AB59H25G118341'],
      ['1G4AG59H05G118341', '1G4AP59H05G118341'],
      ['1G4AR59H85G118341', '1G4AZ59H85G118341'],
      ['1G4AK59H25G118341', '1G4A259H25G118341'],
      ['1G4AX59H05G118341', '1G4AG59H05G118341'],
    ];
    for (const vin of pairs.flat()) expect(checkVin(vin).verdict).toBe('valid');
  });

  it.each([
    [' 1g4ah59h45g118341 ', '1G4AH59H45G118341'],
    ['1G4AH59H4-5G-118341', '1G4AH59H45G118341'],
    ['1G4 AH59H 45G\t118341\n', '1G4AH59H45G118341'],
    ['1G4AH59H4\u20135G\u00a0118341\u200b', '1G4AH59H45G118341'],
  ])('%j is tidied up before the check', (typed, normalised) => {
    expect(checkVin(typed)).toMatchObject({ verdict: 'valid', normalised });
  });
});

describe(`VINs that are wrong (${REGULATION})`, () => {
  it.each([
    ['1G4AH59H45G11834', 'TOO_SHORT', null],
    ['1G4AH59H45G1183411', 'TOO_LONG', null],
    ['1G4AH59HA5G118341', 'CHECK_CHAR', '4'],
    ['1G4IH59H45G118341', 'BAD_CHARACTER', null],
    ['1G4OH59H45G118341', 'BAD_CHARACTER', null],
    ['1G4QH59H45G118341', 'BAD_CHARACTER', null],
    ['1G4AH59H45G118342', 'CHECK_DIGIT', '6'],
    ['1G4A5H9H45G118341', 'CHECK_DIGIT', '1'],
    ['1J9RP1A30U1644345', 'YEAR_CODE', '0'],
    ['1G4AH*9H45G118341', 'BAD_CHARACTER', null],
    ['1G4AH-9H45G118341', 'BAD_CHARACTER', null],
    ['', 'EMPTY', null],
    [' - ', 'EMPTY', null],
  ])('%j is rejected: %s', (typed, reason, digit) => {
    for (const year of [undefined, 1981, 2005]) {
      expect(checkVin(typed, year)).toMatchObject({ verdict: 'reject', reason, checkDigit: digit });
    }
  });

  it('says which letter cannot be right and what it may have been', () => {
    expect(checkVin('1G4IH59H45G118341').sentence).toContain('may be a 1');
    expect(checkVin('1G4OH59H45G118341').sentence).toContain('may be a 0');
    expect(checkVin('1G4AH*9H45G118341').sentence).toContain('"*"');
    expect(checkVin('1G4AH59H45G118342').sentence).toContain('ask for 6');
  });

  it('letters of other alphabets do not pass as ours', () => {
    // Capitals of the long s and the dotless i would be S and I.
    expect(checkVin('1G4A\u017f59H25G118341')).toMatchObject({ verdict: 'reject', reason: 'BAD_CHARACTER' });
    expect(checkVin('\uff11G4AH59H45G118341')).toMatchObject({ verdict: 'reject', reason: 'BAD_CHARACTER' });
  });

  it.each(['1', '2', '3', '4', '5'])('a first character of %s makes the check digit binding', (first) => {
    const vin = `${first}G4AH59H?5G118341`;
    const right = checkDigit(vin.replace('?', '0')) ?? '';
    const wrong = right === '7' ? '8' : '7';
    expect(checkVin(vin.replace('?', right)).verdict).toBe('valid');
    expect(checkVin(vin.replace('?', wrong)).verdict).toBe('reject');
    expect(checkVin(vin.replace('?', wrong), 1981).verdict).toBe('reject');
    expect(checkVin(vin.replace('?', wrong), 1980).verdict).toBe('accept-unchecked');
  });
});

describe('what is accepted without being proved', () => {
  // FMVSS 115 / 49 CFR 565 history (from memory): no common format before model year 1981.
  it.each([
    ['9F02R100234', 1969],
    ['194677S1OO001', 1967],
    ['123456', 1955],
    ['BA7-1234 Q', 1972],
    ['1G4AH59H4-5G118342', 1980],
    ['1234567890123456789012', 1930],
  ])('%s of %i is kept as typed', (typed, year) => {
    expect(checkVin(` ${typed.toLowerCase()} `, year)).toMatchObject({
      verdict: 'accept-unchecked',
      reason: 'PRE_STANDARD',
      normalised: typed,
      checkDigit: null,
      modelYears: [],
    });
  });

  it('outside North America a filler or a failed check is a warning (ISO 3779; from memory)', () => {
    expect(checkVin('WZZZZZ8EZ5A000001', 2005)).toMatchObject({
      verdict: 'accept-warn',
      reason: 'CHECK_CHAR',
      modelYears: [2005],
    });
    expect(checkVin('9Z9GPR2R1WRA04550')).toMatchObject({
      verdict: 'accept-warn',
      reason: 'CHECK_DIGIT',
      checkDigit: '0',
    });
    expect(checkVin('00000000000000000')).toMatchObject({
      verdict: 'accept-warn',
      reason: 'YEAR_CODE',
      modelYears: [],
    });
  });

  it('China requires the digit (GB 16735; from memory), so the warning there says to look again', () => {
    const check = checkVin('LZZGPR2R1WRA04550');
    expect(check).toMatchObject({ verdict: 'accept-warn', reason: 'CHECK_DIGIT' });
    expect(check.sentence).toContain('China');
  });

  it.each([
    ['9F02R100234', undefined],
    ['194677S1OO001', undefined],
    ['123456', undefined],
    ['ABC34-012345', 1994],
  ])('%s, model year %s, may be right, so it is kept as typed with a warning', (typed, year) => {
    expect(checkVin(typed, year)).toMatchObject({
      verdict: 'accept-warn',
      reason: 'TOO_SHORT',
      normalised: typed,
      checkDigit: null,
    });
  });

  it('a short North American number is wrong once the model year says so', () => {
    expect(checkVin('194677S100001', 1990)).toMatchObject({ verdict: 'reject', reason: 'TOO_SHORT' });
  });
});

describe('any text at all', () => {
  const vinish = fc.stringMatching(/^[0-9A-Z \-]{14,20}$/);
  const text = fc.oneof(fc.string({ unit: 'binary' }), fc.string({ unit: 'grapheme' }), vinish);
  const year = fc.option(fc.integer({ min: 1900, max: 2040 }), { nil: undefined });

  it('gets a verdict with a sentence, never an exception, and the same verdict once tidied up', () => {
    fc.assert(
      fc.property(text, year, (typed, modelYear) => {
        const check = checkVin(typed, modelYear);
        expect(check.sentence.length).toBeGreaterThan(10);
        expect(checkVin(check.normalised, modelYear)).toEqual(check);
        if (check.verdict === 'valid') expect(check.normalised.charAt(8)).toBe(check.checkDigit);
      }),
      { numRuns: 3000 },
    );
  });

  it('of a vehicle from before 1981 is kept, whatever it is', () => {
    fc.assert(
      fc.property(text, fc.integer({ min: 1900, max: 1980 }), (typed, modelYear) => {
        const { verdict, reason } = checkVin(typed, modelYear);
        expect(reason === 'EMPTY' ? 'accept-unchecked' : verdict).toBe('accept-unchecked');
      }),
    );
  });
});
