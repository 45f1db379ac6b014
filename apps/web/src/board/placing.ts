import { type Axis, type Place, QUARTER } from './axis.js';

/** The instant at a fraction of the rule's length. */
export const instantAt = (on: Axis, fraction: number): number => on.from + fraction * (on.to - on.from);

/** To the nearest quarter hour at which a ticket of this length still lies on the rule. */
export function snapStart(on: Axis, startsAt: number, length: number): number {
  const last = Math.max(on.from, Math.floor((on.to - length) / QUARTER) * QUARTER);
  return Math.min(last, Math.max(on.from, Math.round(startsAt / QUARTER) * QUARTER));
}

export function placeAt(on: Axis, bayId: string, startsAt: number, length: number): Place {
  const start = snapStart(on, startsAt, length);
  return { bayId, startsAt: start, endsAt: start + length };
}

/** One press of an arrow key: a quarter hour left or right, a bay up or down. Null for any other key. */
export function nudge(on: Axis, bayIds: readonly string[], place: Place, key: string): Place | null {
  const length = place.endsAt - place.startsAt;
  const bay = bayIds.indexOf(place.bayId);
  const step = (by: number): Place => placeAt(on, bayIds[bay + by] ?? place.bayId, place.startsAt, length);
  if (key === 'ArrowLeft')
    return placeAt(on, place.bayId, snapStart(on, place.startsAt, length) - QUARTER, length);
  if (key === 'ArrowRight')
    return placeAt(on, place.bayId, snapStart(on, place.startsAt, length) + QUARTER, length);
  if (key === 'ArrowUp') return step(-1);
  if (key === 'ArrowDown') return step(1);
  return null;
}

export const samePlace = (a: Place, b: Place): boolean => a.bayId === b.bayId && a.startsAt === b.startsAt;
