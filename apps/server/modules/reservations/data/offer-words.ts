import { DateTime } from 'luxon';
import type { OfferedMoveResponse, OfferResponse } from '../dto/offer.response.js';

const FAR_DAYS = 6;

/** A time as it is said on the phone: the day only where it is another one than `beside`, the date where it is far off. */
export function saidTime(instant: string, zone: string, now: Date, beside?: string): string {
  const at = DateTime.fromISO(instant, { zone });
  if (beside !== undefined && at.hasSame(DateTime.fromISO(beside, { zone }), 'day'))
    return at.toFormat('HH:mm');
  const days = at.startOf('day').diff(DateTime.fromJSDate(now, { zone }).startOf('day'), 'days').days;
  return at.setLocale('en').toFormat(days > FAR_DAYS ? 'ccc d LLL HH:mm' : 'ccc HH:mm');
}

/** The offer as a sentence to be read out. */
export function offerWords(
  offer: Omit<OfferResponse, 'words' | 'offerKey'>,
  zone: string,
  now: Date,
): string {
  const { arrivesAt, startsAt, readyAt, readyP80At, bayName } = offer;
  const start = saidTime(startsAt, zone, now, arrivesAt);
  const ready = saidTime(readyAt, zone, now, startsAt);
  const p80 = saidTime(readyP80At, zone, now, readyAt);
  return (
    `Bring it ${saidTime(arrivesAt, zone, now)} → ${bayName} at ${start}, ready about ${ready}, ` +
    `in four of five cases by ${p80}; ${movesWords(offer.moves, offer.latenessAddedMinutes)}.`
  );
}

const named = ({ kind, number }: OfferedMoveResponse): string =>
  `${kind === 'work-order' ? 'work order' : 'reservation'} ${number}`;

function movesWords(moves: readonly OfferedMoveResponse[], latenessAdded: number): string {
  const [first] = moves;
  if (first === undefined) return 'nothing moves';
  const late =
    latenessAdded > 0 ? ` and others would be ${saidMinutes(latenessAdded)} later than promised` : '';
  if (moves.length === 1) return `${named(first)} would ${moveWords(first)}${late}`;
  const some = [...new Set(moves.map(named))];
  const list =
    some.length > 4 ? `${some.slice(0, 3).join(', ')} and ${some.length - 3} more` : some.join(', ');
  return `${moves.length} others would move (${list})${late}`;
}

function moveWords({ was, is }: OfferedMoveResponse): string {
  if (is === null || was === null) return 'lose its place';
  const minutes = Math.round((Date.parse(is.startsAt) - Date.parse(was.startsAt)) / 60_000);
  if (minutes !== 0) return `begin ${saidMinutes(Math.abs(minutes))} ${minutes > 0 ? 'later' : 'sooner'}`;
  return is.bayId === was.bayId ? `go to ${is.technicianName}` : `be done in ${is.bayName}`;
}

export function saidMinutes(minutes: number): string {
  const hours = Math.floor(minutes / 60);
  const rest = minutes % 60;
  if (hours === 0) return `${rest} min`;
  return rest === 0 ? `${hours} h` : `${hours} h ${rest} min`;
}
