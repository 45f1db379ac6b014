/** A unit's size in the base unit of its dimension: value × numerator ÷ denominator, after taking off `zero`. */
interface UnitSize {
  readonly dimension: Dimension;
  readonly numerator: bigint;
  readonly denominator: bigint;
  readonly zero?: bigint;
}

export type Dimension =
  'length' | 'pressure' | 'voltage' | 'temperature' | 'angle' | 'share' | 'force' | 'year' | 'count';

/**
 * Units of readings, each as an exact fraction of its base unit (millimetre, pascal, millivolt, degree Celsius, degree of
 * arc, percent, newton), so that 1.59 mm and 2/32 in are told apart.
 * Source: exact factors of NIST SP 811 (2008) appendix B: inch 25.4 mm, pound-force 4.448 221 615 260 5 N, so that
 * psi = lbf/in² = 44482216152605/6451600000 Pa; bar 100 kPa; degrees Celsius = (F − 32) × 5/9.
 */
export const UNITS = {
  mm: { dimension: 'length', numerator: 1n, denominator: 1n },
  in: { dimension: 'length', numerator: 254n, denominator: 10n },
  'in/32': { dimension: 'length', numerator: 254n, denominator: 320n },
  'in/64': { dimension: 'length', numerator: 254n, denominator: 640n },
  kPa: { dimension: 'pressure', numerator: 1000n, denominator: 1n },
  bar: { dimension: 'pressure', numerator: 100_000n, denominator: 1n },
  psi: { dimension: 'pressure', numerator: 44_482_216_152_605n, denominator: 6_451_600_000n },
  V: { dimension: 'voltage', numerator: 1000n, denominator: 1n },
  mV: { dimension: 'voltage', numerator: 1n, denominator: 1n },
  '°C': { dimension: 'temperature', numerator: 1n, denominator: 1n },
  '°F': { dimension: 'temperature', numerator: 5n, denominator: 9n, zero: 32n },
  '°': { dimension: 'angle', numerator: 1n, denominator: 1n },
  '%': { dimension: 'share', numerator: 1n, denominator: 1n },
  N: { dimension: 'force', numerator: 1n, denominator: 1n },
  lbf: { dimension: 'force', numerator: 44_482_216_152_605n, denominator: 10_000_000_000_000n },
  year: { dimension: 'year', numerator: 1n, denominator: 1n },
  count: { dimension: 'count', numerator: 1n, denominator: 1n },
} as const satisfies Readonly<Record<string, UnitSize>>;

export type Unit = keyof typeof UNITS;

export const UNIT_NAMES = Object.keys(UNITS) as readonly Unit[];

export function sizeOf(unit: Unit): UnitSize {
  return UNITS[unit];
}

export function dimensionOf(unit: Unit): Dimension {
  return UNITS[unit].dimension;
}
