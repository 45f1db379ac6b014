export const DISTANCE_UNITS = ['km', 'mi'] as const;
export type DistanceUnit = (typeof DISTANCE_UNITS)[number];

export interface Distance {
  readonly reading: number;
  readonly unit: DistanceUnit;
}

/** Millimetres: the international mile is exactly 1609.344 m (1959 agreement; NIST SP 811, appendix B). */
const MILLIMETRES: Readonly<Record<DistanceUnit, number>> = { km: 1_000_000, mi: 1_609_344 };

/**
 * Whether an odometer reads less than before. In one unit that is plain; after a change of units both readings are
 * whole numbers cut off somewhere below, so only a whole unit less counts.
 */
export function odometerWentBack(before: Distance, now: Distance): boolean {
  if (before.unit === now.unit) return now.reading < before.reading;
  return (now.reading + 1) * MILLIMETRES[now.unit] <= before.reading * MILLIMETRES[before.unit];
}
