/** Wall-clock time of the shop, whatever zone the screen is in. Instants are milliseconds since the epoch. */

const formats = new Map<string, Intl.DateTimeFormat>();

function parts(at: number, zone: string): Record<string, string> {
  let format = formats.get(zone);
  if (!format) {
    format = new Intl.DateTimeFormat('en-GB', {
      timeZone: zone,
      hourCycle: 'h23',
      year: 'numeric',
      month: '2-digit',
      day: '2-digit',
      hour: '2-digit',
      minute: '2-digit',
      second: '2-digit',
    });
    formats.set(zone, format);
  }
  return Object.fromEntries(format.formatToParts(at).map(({ type, value }) => [type, value]));
}

/** `07:30`, in the shop's zone. */
export function clockTime(at: number, zone: string): string {
  const { hour = '', minute = '' } = parts(at, zone);
  return `${hour}:${minute}`;
}

/** The calendar day of an instant in the shop's zone, `2031-03-12`. */
export function dayOf(at: number, zone: string): string {
  const { year = '', month = '', day = '' } = parts(at, zone);
  return `${year}-${month}-${day}`;
}

export function shiftDay(day: string, by: number): string {
  return new Date(Date.parse(`${day}T00:00:00Z`) + by * 86_400_000).toISOString().slice(0, 10);
}

export const isDay = (text: string | null): text is string =>
  text !== null && /^\d{4}-\d\d-\d\d$/.test(text) && !Number.isNaN(Date.parse(`${text}T00:00:00Z`));

/** `Wednesday 12 March`; the year is added when it is not this one. */
export function dayWords(day: string, today: string): string {
  const text = new Intl.DateTimeFormat('en-GB', {
    timeZone: 'UTC',
    weekday: 'long',
    day: 'numeric',
    month: 'long',
    ...(day.slice(0, 4) === today.slice(0, 4) ? {} : { year: 'numeric' }),
  }).format(Date.parse(`${day}T00:00:00Z`));
  return text.replace(',', '');
}

/** Zone offset at an instant: wall clock minus UTC, in milliseconds. */
function offset(at: number, zone: string): number {
  const p = parts(at, zone);
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
