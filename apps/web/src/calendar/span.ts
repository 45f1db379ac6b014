import { clockTime, dayOf, dayWords, shiftDay } from '../board/zone-time.js';

/** A stretch of time as the page shows it, in epoch milliseconds; no end while nobody knows it. */
export interface Span {
  readonly from: number;
  readonly to: number | null;
}

interface Recorded {
  readonly startsAt: string;
  readonly endsAt: string | null;
  readonly endedAt?: string | null;
}

/** What was put back early ended then. */
export function spanOf({ startsAt, endsAt, endedAt }: Recorded): Span {
  const end = endedAt ?? endsAt;
  return { from: Date.parse(startsAt), to: end === null ? null : Date.parse(end) };
}

const isMidnight = (at: number, zone: string): boolean => clockTime(at, zone) === '00:00';

/** `Tuesday 17 March`, `Tuesday 17 March, 08:00 to 12:00`, or from one day and time to another, by the shop's clock. */
export function spanWords({ from, to }: Span, zone: string, today: string): string {
  const day = dayOf(from, zone);
  const at = (moment: number): string =>
    `${dayWords(dayOf(moment, zone), today)}, ${clockTime(moment, zone)}`;
  if (to === null) {
    return `From ${isMidnight(from, zone) ? dayWords(day, today) : at(from)}; nobody knows until when`;
  }
  if (isMidnight(from, zone) && isMidnight(to, zone)) {
    const last = shiftDay(dayOf(to, zone), -1);
    return day === last ? dayWords(day, today) : `${dayWords(day, today)} to ${dayWords(last, today)}`;
  }
  return day === dayOf(to - 1, zone)
    ? `${at(from)} to ${isMidnight(to, zone) ? '24:00' : clockTime(to, zone)}`
    : `${at(from)} to ${at(to)}`;
}

/** Where a span lies on a strip over `days` days, in percent of its length; undefined when it lies beside it. */
export function onStrip(span: Span, strip: { readonly from: number; readonly to: number }) {
  const start = Math.max(span.from, strip.from);
  const end = Math.min(span.to ?? strip.to, strip.to);
  if (end <= start) return undefined;
  const share = (at: number): number => ((at - strip.from) / (strip.to - strip.from)) * 100;
  return { left: share(start), width: share(end) - share(start) };
}
