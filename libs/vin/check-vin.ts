import { checkDigit } from './check-digit.js';
import { modelYears, type VinVehicleKind } from './model-years.js';
import { normaliseVin } from './normalise-vin.js';
import type { VinCheck, VinReason, VinVerdict } from './vin-check.js';

/** Model year from which the 17-character format with a check digit applies. */
const FIRST_STANDARD_YEAR = 1981;
const LENGTH = 17;
/** Chassis numbers from before the standard were 13 characters at most in North America (from memory, no source). */
const LONGEST_EARLY = 13;

/**
 * Checks a vehicle identification number as typed. It never throws and never stands in the way: pre-standard chassis
 * numbers and foreign VINs are accepted, and what is rejected says what to look at.
 *
 * - Before model year 1981: any length and alphabet, kept as typed, no check.
 * - 17 characters without I, O and Q everywhere else (ISO 3779; 49 CFR 565.13).
 * - A first character of 1 to 5 means North America, where check digit and year code are required (49 CFR 565.15).
 *   Elsewhere a failed check is a warning only, also for L (China), where GB 16735 requires the digit.
 * - Without a model year, a short number is taken for an early one unless it is North American and too long for that.
 *
 * @param modelYear as known from elsewhere; it picks among the years that the VIN allows.
 * @param kind lets the seventh character choose the 30-year cycle, for light vehicles.
 */
export function checkVin(input: string, modelYear?: number, kind?: VinVehicleKind): VinCheck {
  const { asTyped, compact } = normaliseVin(input);
  if (compact === '')
    return outcome('reject', asTyped, 'EMPTY', 'Enter the number from the vehicle or its papers.');
  if (modelYear !== undefined && modelYear < FIRST_STANDARD_YEAR) {
    return outcome(
      'accept-unchecked',
      asTyped,
      'PRE_STANDARD',
      'Before model year 1981 there was no standard: kept as typed, without a check.',
    );
  }
  const length = Array.from(compact).length;
  if (length === LENGTH) return checkFull(compact, modelYear, kind);
  // Nothing to drop: something that is neither letter nor digit stands inside 17 characters.
  if (Array.from(asTyped).length === LENGTH) return checkFull(asTyped, modelYear, kind);
  return checkLength(asTyped, length, isNorthAmerican(compact), modelYear !== undefined);
}

const isNorthAmerican = (vin: string) => /^[1-5]/.test(vin);

function outcome(verdict: VinVerdict, normalised: string, reason: VinReason, sentence: string): VinCheck {
  return { verdict, normalised, checkDigit: null, modelYears: [], reason, sentence };
}

function checkLength(vin: string, length: number, isNorth: boolean, isYearKnown: boolean): VinCheck {
  const count = `This has ${length} ${length === 1 ? 'character' : 'characters'}; a VIN has ${LENGTH}.`;
  if (length > LENGTH) return outcome('reject', vin, 'TOO_LONG', `${count} Look for one typed twice.`);
  if (isNorth && (isYearKnown || length > LONGEST_EARLY)) {
    return outcome('reject', vin, 'TOO_SHORT', `${count} Look for one left out.`);
  }
  const remedy = isYearKnown
    ? 'Keep it if the vehicle was built for a market that numbers differently.'
    : 'Right if the vehicle is older than model year 1981: enter the model year to settle it.';
  return outcome('accept-warn', vin, 'TOO_SHORT', `${count} ${remedy}`);
}

function checkFull(vin: string, modelYear: number | undefined, kind: VinVehicleKind | undefined): VinCheck {
  const digit = checkDigit(vin);
  if (digit === null) return outcome('reject', vin, 'BAD_CHARACTER', badCharacterSentence(vin));
  const years = modelYears(vin, kind);
  const isYearPossible = modelYear !== undefined && modelYears(vin).includes(modelYear);
  const read = {
    normalised: vin,
    checkDigit: digit,
    modelYears: isYearPossible ? [modelYear] : years,
  };
  const problem = problemOf(vin, digit, years.length > 0);
  if (problem !== null) {
    if (isNorthAmerican(vin)) return { ...read, verdict: 'reject', ...problem };
    const sentence = `${problem.sentence} ${foreignSentence(vin)}`;
    return { ...read, verdict: 'accept-warn', reason: problem.reason, sentence };
  }
  if (modelYear !== undefined && !isYearPossible) {
    const sentence = `The VIN is right, but its tenth character stands for ${years.join(' or ')}, not ${modelYear}.`;
    return { ...read, verdict: 'valid', reason: 'YEAR_DIFFERS', sentence };
  }
  const sentence =
    'Format and check digit are right. Compare it with the vehicle: one wrong VIN in eleven passes too.';
  return { ...read, verdict: 'valid', reason: 'VALID', sentence };
}

function problemOf(
  vin: string,
  digit: string,
  hasYear: boolean,
): Pick<VinCheck, 'reason' | 'sentence'> | null {
  const found = vin.charAt(8);
  if (!/[0-9X]/.test(found)) {
    return { reason: 'CHECK_CHAR', sentence: `The ninth character is a digit or X, not ${found}.` };
  }
  if (found !== digit) {
    const sentence = `The ninth character is ${found}, the others ask for ${digit}: look for a mistyped or swapped one.`;
    return { reason: 'CHECK_DIGIT', sentence };
  }
  if (!hasYear) {
    const sentence = `The tenth character, ${vin.charAt(9)}, is no model year (I, O, Q, U, Z and 0 are not used).`;
    return { reason: 'YEAR_CODE', sentence };
  }
  return null;
}

function foreignSentence(vin: string): string {
  return vin.startsWith('L')
    ? 'Vehicles built in China carry the check digit too, so look again before you keep it.'
    : 'Outside North America this is not required: keep it if the vehicle says so.';
}

function badCharacterSentence(vin: string): string {
  const bad = Array.from(vin).find((character) => !/[A-HJ-NPR-Z0-9]/.test(character)) ?? '';
  if (bad === 'I') return 'The letter I is never used in a VIN: it may be a 1.';
  if (bad === 'O' || bad === 'Q') return `The letter ${bad} is never used in a VIN: it may be a 0.`;
  return `A VIN has only digits and capital letters: replace "${bad}".`;
}
