import { bookHundredths, bookToSeconds } from '#libs/kernel';
import type { Bay, Hold, Ticket } from '../api/types.js';
import type { Look } from '../ui/look-word.js';
import { type ShownDay, isOnDay } from './axis.js';

export const holdWord: Readonly<Record<Hold['kind'], string>> = {
  decision: 'Decision',
  parts: 'Parts',
  bay: 'Bay',
  technician: 'Technician',
  tool: 'Special tool',
  'earlier-work-order': 'Earlier work order',
  sublet: 'Sublet',
};

export const bookSeconds = (ticket: Ticket): number => bookToSeconds(bookHundredths(ticket.bookHundredths));

/** Clocked so far: the board's figure, and the seconds since for a ticket whose clock is running. */
export function clockedSeconds(ticket: Ticket, sinceBoard: number): number {
  const running = ticket.state === 'on-the-clock' ? Math.max(0, Math.floor(sinceBoard / 1000)) : 0;
  return ticket.clockedSeconds + running;
}

export function lookOf(ticket: Ticket, clocked: number): Look {
  switch (ticket.state) {
    case 'finished':
    case 'checked':
      return 'done';
    case 'on-the-clock':
      return clocked > bookSeconds(ticket) ? 'past-book' : 'clocked';
    case 'paused':
      return 'paused';
    case 'released':
    case 'claimed':
      return ticket.holds.length > 0 ? 'held' : 'planned';
  }
}

export const isDone = (ticket: Ticket): boolean => ticket.state === 'finished' || ticket.state === 'checked';
/** What runs or is done stays where it is. */
export const isMovable = (ticket: Ticket): boolean => !isDone(ticket) && ticket.state !== 'on-the-clock';
/** What was paused on another day has no lane today, so it is found among what can start. */
export const belongsInTray = (ticket: Ticket, shown: ShownDay): boolean =>
  ticket.canStart &&
  (ticket.state === 'released' ||
    ticket.state === 'claimed' ||
    (ticket.state === 'paused' && !isOnDay(ticket, shown)));
/** Clocked on, or done and not checked, without ever having had a place: it has no lane on any day. */
export const isUnderWayWithoutBay = (ticket: Ticket): boolean =>
  ticket.assignment === null && (ticket.state === 'on-the-clock' || ticket.state === 'finished');
export const isWaiting = (ticket: Ticket): boolean =>
  ticket.holds.length > 0 && !isDone(ticket) && ticket.state !== 'on-the-clock';

/** Book time as the trade writes it: one decimal, a second one only where it says something. */
export function bookHours(hundredths: number): string {
  return (hundredths / 100).toFixed(hundredths % 10 === 0 ? 1 : 2);
}
/** Clocked time to a tenth of an hour, for reading only; what is past book is never shown as nothing. */
export const tenths = (seconds: number): string => (seconds / 3600).toFixed(1);
export const tenthsUp = (seconds: number): string => (Math.ceil(seconds / 360) / 10).toFixed(1);

const liftWord: Readonly<Record<string, string>> = {
  'two-post': 'Two-post lift',
  'four-post': 'Four-post lift',
  scissor: 'Scissor lift',
  'in-ground': 'In-ground lift',
};

/** `Two-post lift, 3 500 kg`. */
export function bayWords(bay: Bay): string {
  const lift = bay.liftKind === null ? undefined : (liftWord[bay.liftKind] ?? bay.liftKind);
  const kind =
    bay.kind === 'flat' ? 'Flat bay' : bay.kind === 'alignment' ? 'Alignment rack' : (lift ?? 'Lift');
  return bay.capacityKg === null ? kind : `${kind}, ${kilograms(bay.capacityKg)}`;
}

export const kilograms = (kg: number): string =>
  `${String(kg).replace(/\B(?=(\d{3})+$)/g, '\u202f')}\u00a0kg`;

export const vehicleWords = (ticket: Ticket): string =>
  ticket.vehicle.plate ? `${ticket.vehicle.label}, ${ticket.vehicle.plate}` : ticket.vehicle.label;
