import { sizeOf } from './units.js';
import type { Unit } from './units.js';

/** An exact number: numerator ÷ denominator, denominator above zero. */
export interface Exact {
  readonly numerator: bigint;
  readonly denominator: bigint;
}

const DECIMAL = /^([+-]?)(\d{1,9})(?:\.(\d{1,9}))?$/;

/**
 * A decimal text as an exact number, or null when it is not one. No exponent, no comma, no spaces: what cannot be
 * read in exactly one way is not a measurement.
 */
export function exactOf(text: string): Exact | null {
  const match = DECIMAL.exec(text);
  if (match === null) return null;
  const [, sign, whole, fraction = ''] = match;
  const digits = BigInt(`${whole}${fraction}`);
  return { numerator: sign === '-' ? -digits : digits, denominator: 10n ** BigInt(fraction.length) };
}

/** A value in a unit, brought to the base unit of its dimension without rounding. */
export function inBaseUnit(value: Exact, unit: Unit): Exact {
  const { numerator, denominator, zero = 0n } = sizeOf(unit);
  return {
    numerator: (value.numerator - zero * value.denominator) * numerator,
    denominator: value.denominator * denominator,
  };
}

/** Negative when left is less, zero when equal, positive when more. */
export function compareExact(left: Exact, right: Exact): number {
  const difference = left.numerator * right.denominator - right.numerator * left.denominator;
  return difference < 0n ? -1 : difference > 0n ? 1 : 0;
}
