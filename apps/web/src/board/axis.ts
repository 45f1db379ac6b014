import type { Assignment, Board } from '../api/types.js';
import { clockTime } from './zone-time.js';

export const QUARTER = 15 * 60_000;
const HALF_HOUR = 2 * QUARTER;

export interface Tick {
  readonly at: number;
  readonly size: 'hour' | 'half' | 'quarter';
  readonly label: string;
}
/** The stretch of time that the board shows, `[from, to)` in milliseconds, with the ticks of its steel rule. */
export interface Axis {
  readonly from: number;
  readonly to: number;
  readonly hours: number;
  readonly ticks: readonly Tick[];
}
/** Where a ticket lies or would lie. */
export interface Place {
  readonly bayId: string;
  readonly startsAt: number;
  readonly endsAt: number;
}

export const placeOf = (assignment: Assignment): Place => ({
  bayId: assignment.bayId,
  startsAt: Date.parse(assignment.startsAt),
  endsAt: Date.parse(assignment.endsAt),
});

export const placeIn = (assignment: Assignment | null): Place | null => (assignment ? placeOf(assignment) : null);

/**
 * The shop's day, widened to whole half hours around every assignment that lies outside it and around the present
 * where work on the clock has run past closing.
 */
export function axisOf(board: Board, ends: readonly number[] = []): Axis {
  const places = board.tickets.flatMap((ticket) => (ticket.assignment ? [placeOf(ticket.assignment)] : []));
  const from = Math.min(Date.parse(board.dayStartsAt), ...places.map((place) => place.startsAt));
  const to = Math.max(Date.parse(board.dayEndsAt), ...places.map((place) => place.endsAt), ...ends);
  return axis(
    Math.floor(from / HALF_HOUR) * HALF_HOUR,
    Math.min(Math.ceil(to / HALF_HOUR), Math.floor(from / HALF_HOUR) + 96) * HALF_HOUR,
    board.timeZone,
  );
}

function axis(from: number, to: number, zone: string): Axis {
  const ticks: Tick[] = [];
  for (let at = from; at <= to; at += QUARTER) {
    const time = clockTime(at, zone);
    const minute = time.slice(3);
    const size = minute === '00' ? 'hour' : minute === '30' ? 'half' : 'quarter';
    ticks.push({ at, size, label: size === 'hour' ? time.slice(0, 2) : '' });
  }
  return { from, to, hours: (to - from) / 3_600_000, ticks };
}

/** Position on the rule, in percent of its length; may lie outside 0 to 100. */
export const percent = (on: Axis, at: number): number => ((at - on.from) / (on.to - on.from)) * 100;
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
  if (key === 'ArrowLeft') return placeAt(on, place.bayId, snapStart(on, place.startsAt, length) - QUARTER, length);
  if (key === 'ArrowRight') return placeAt(on, place.bayId, snapStart(on, place.startsAt, length) + QUARTER, length);
  if (key === 'ArrowUp') return step(-1);
  if (key === 'ArrowDown') return step(1);
  return null;
}

export const samePlace = (a: Place, b: Place): boolean => a.bayId === b.bayId && a.startsAt === b.startsAt;
