/** Codes of the 30-year cycle from 1980 on. I, O, Q, U, Z and 0 are never used. */
const CYCLE = 'ABCDEFGHJKLMNPRSTVWXY123456789';

/** `light`: a car, or a van or truck of at most 10,000 lb (4,536 kg) gross. `other`: heavier, bus, trailer, motorcycle. */
export type VinVehicleKind = 'light' | 'other';

/**
 * The model years that a 17-character VIN can stand for, ascending; empty when the tenth character is no year code.
 * Each code returns after 30 years, so there are two, unless the vehicle is known to be light: then the seventh
 * character decides (a digit up to 2009, a letter from 2010). It must not decide for motorcycles, trailers, buses and
 * heavy trucks, and a VIN alone does not tell which it is on.
 *
 * Source: 49 CFR 565.15(b) and (d)(1), table VII; 73 FR 23367 (30 April 2008).
 */
export function modelYears(vin: string, kind?: VinVehicleKind): readonly number[] {
  const code = vin.charAt(9);
  const place = code === '' ? -1 : CYCLE.indexOf(code);
  if (place < 0) return [];
  const years = [1980 + place, 2010 + place];
  if (kind !== 'light') return years;
  return /\d/.test(vin.charAt(6)) ? years.slice(0, 1) : years.slice(1);
}
