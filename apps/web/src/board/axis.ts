import type { Assignment, Board, Ticket } from '../api/types.js';
import { clockTime, dayOf } from './zone-time.js';

export const QUARTER = 15 * 60_000;
const HALF_HOUR = 2 * QUARTER;
const HOUR = 2 * HALF_HOUR;

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

export const placeIn = (assignment: Assignment | null): Place | null =>
  assignment ? placeOf(assignment) : null;

export type ShownDay = Pick<Board, 'day' | 'timeZone' | 'now'>;

/** Whether a ticket has its place on the day that is shown. What is on the clock keeps its bay up to the present. */
export function isOnDay(ticket: Ticket, { day, timeZone, now }: ShownDay): boolean {
  if (!ticket.assignment) return false;
  const { startsAt, endsAt } = placeOf(ticket.assignment);
  const end = ticket.state === 'on-the-clock' ? Math.max(endsAt, Date.parse(now)) : endsAt;
  return dayOf(startsAt, timeZone) <= day && day <= dayOf(end - 1, timeZone);
}

/** What a ticket widens the rule by: of work that goes on another day an hour, not the night between. */
function onRule(ticket: Ticket, board: ShownDay): { startsAt: number; endsAt: number }[] {
  if (!ticket.assignment || !isOnDay(ticket, board)) return [];
  const { startsAt, endsAt } = placeOf(ticket.assignment);
  const begins = dayOf(startsAt, board.timeZone) === board.day;
  const ends = dayOf(endsAt - 1, board.timeZone) === board.day;
  if (ticket.state === 'on-the-clock' || (begins && ends)) return [{ startsAt, endsAt }];
  if (begins) return [{ startsAt, endsAt: startsAt + HOUR }];
  return ends ? [{ startsAt: endsAt - HOUR, endsAt }] : [];
}

/**
 * The shop's day, widened to whole half hours around every assignment of the day that lies outside it and around the
 * present where work on the clock has run past closing.
 */
export function axisOf(board: Board, ends: readonly number[] = []): Axis {
  const places = board.tickets.flatMap((ticket) => onRule(ticket, board));
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
