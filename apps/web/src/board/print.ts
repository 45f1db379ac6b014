import type { Bay, Board, Hold, Ticket } from '../api/types.js';
import { type Look, lookWord } from '../ui/look-word.js';
import type { TicketPrint } from '../ui/ticket.js';
import { QUARTER, isOnDay, placeOf } from './axis.js';
import {
  bookHours,
  bookSeconds,
  clockedSeconds,
  holdWord,
  isDone,
  lookOf,
  tenthsUp,
  vehicleWords,
} from './look.js';
import { clockTime, dayOf, dayWords, inShopTime } from './zone-time.js';

export interface PrintContext {
  readonly zone: string;
  /** The day that the board shows. */
  readonly day: string;
  /** Milliseconds since the board's figures were taken. */
  readonly sinceBoard: number;
  /** The present, in milliseconds. */
  readonly now: number;
  readonly bays: ReadonlyMap<string, Bay>;
}

/** Length of a ticket in seconds: its time on the plan, or its book time while it has none. */
export function lengthOf(ticket: Ticket): number {
  if (!ticket.assignment) return bookSeconds(ticket);
  const place = placeOf(ticket.assignment);
  return (place.endsAt - place.startsAt) / 1000;
}

/**
 * How far what is clocked sticks out past the ticket, in seconds. Nothing that was clocked lies ahead: of work that was
 * begun elsewhere, or whose place was stretched for it, the place itself shows what is still to come.
 */
function overrun(ticket: Ticket, clocked: number, now: number): number {
  const past = clocked - lengthOf(ticket);
  return ticket.assignment ? Math.min(past, (now - placeOf(ticket.assignment).endsAt) / 1000) : past;
}

/** `bay 2, 09:00 to 10:30`, with the day where it is not the one shown, or that it has no place yet. */
export function placeWords(ticket: Ticket, context: PrintContext): string {
  if (!ticket.assignment) return 'no bay and time yet';
  const place = placeOf(ticket.assignment);
  const bay = context.bays.get(place.bayId);
  const times = `${clockTime(place.startsAt, context.zone)} to ${clockTime(place.endsAt, context.zone)}`;
  const day = dayOf(place.startsAt, context.zone);
  const when = day === context.day ? times : `${dayWords(day, context.day)}, ${times}`;
  return `bay ${bay ? bay.number : '?'}, ${when}`;
}

/** The look's word; of what is not begun, how far it has come: planned is only what has its place. */
export function stateWord(ticket: Ticket, look: Look): string {
  if (look !== 'planned') return lookWord[look];
  if (ticket.claim) return 'Claimed';
  return ticket.assignment ? lookWord.planned : 'Released';
}

export function printOf(ticket: Ticket, context: PrintContext): TicketPrint {
  const clocked = clockedSeconds(ticket, context.sinceBoard);
  const book = bookSeconds(ticket);
  const length = Math.max(1, lengthOf(ticket));
  const look = lookOf(ticket, clocked);
  const open = look === 'clocked' || look === 'past-book' || look === 'paused';
  const hold = ticket.holds[0];
  const holder = ticket.claim?.displayName;
  const claimed = holder !== undefined && look !== 'done' ? `Claimed by ${holder}` : holder;
  const who = claimed ?? ticket.assignment?.technicianName ?? '';
  return {
    look,
    word: stateWord(ticket, look),
    number: `${ticket.workOrderNumber}`,
    hours: `${bookHours(ticket.bookHundredths)} h`,
    vehicle: ticket.vehicle.label,
    title: ticket.title,
    extra: look === 'held' && hold ? `Held: ${inShopTime(hold.detail, context.zone, context.day)}` : who,
    unsafe: ticket.unsafe,
    clocked: Math.min(1, clocked / length),
    tail: open && clocked > book ? Math.max(0, overrun(ticket, clocked, context.now) / length) : 0,
    past: open && clocked > book ? `+${tenthsUp(clocked - book)} h` : '',
    spoken: spoken(ticket, context),
  };
}

/** `Parts: gasket set due Thursday`. */
export const holdText = (hold: Hold, { zone, day }: PrintContext): string =>
  `${holdWord[hold.kind]}: ${inShopTime(hold.detail, zone, day)}`;

function spoken(ticket: Ticket, context: PrintContext): string {
  const claim = ticket.claim ? `Claimed by ${ticket.claim.displayName}.` : '';
  const holds = ticket.holds.map((hold) => holdText(hold, context)).join('; ');
  const place = placeWords(ticket, context);
  return [`${vehicleWords(ticket)}, ${place}.`, ticket.unsafe ? 'Unsafe.' : '', claim, holds]
    .filter(Boolean)
    .join(' ');
}

/** Where overruns stick out to on the rule, so that the rule can be made long enough; quarter hours, they change rarely. */
export function tailEnds(board: Board, sinceBoard: number): number[] {
  return board.tickets.flatMap((ticket) => {
    const clocked = clockedSeconds(ticket, sinceBoard);
    const past = overrun(ticket, clocked, Date.parse(board.now) + sinceBoard);
    if (
      !ticket.assignment ||
      !isOnDay(ticket, board) ||
      isDone(ticket) ||
      clocked <= bookSeconds(ticket) ||
      past <= 0
    )
      return [];
    return [Math.ceil((placeOf(ticket.assignment).endsAt + past * 1000) / QUARTER) * QUARTER];
  });
}
