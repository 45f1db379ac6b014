import { wallParts } from './zone-time.js';

/** Zone offset at an instant: wall clock minus UTC, in milliseconds. */
function offset(at: number, zone: string): number {
  const p = wallParts(at, zone);
  const wall = `${p.year ?? ''}-${p.month ?? ''}-${p.day ?? ''}T${p.hour ?? ''}:${p.minute ?? ''}:${p.second ?? ''}Z`;
  return Date.parse(wall) - Math.floor(at / 1000) * 1000;
}

/**
 * The instant of a wall-clock time. A time that daylight saving skips becomes the same distance after the jump;
 * of a time that happens twice, the first is meant.
 */
export function instantOf(day: string, time: string, zone: string): number {
  const wall = Date.parse(`${day}T${time}:00Z`);
  // The two offsets around the wanted time; they differ only near a change of the clocks.
  const before = offset(wall - 86_400_000, zone);
  const after = offset(wall + 86_400_000, zone);
  const early = wall - before;
  if (offset(early, zone) === before) return early;
  const late = wall - after;
  return offset(late, zone) === after ? late : early;
}
