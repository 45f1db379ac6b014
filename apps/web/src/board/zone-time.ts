/** Wall-clock time of the shop, whatever zone the screen is in. Instants are milliseconds since the epoch. */

const formats = new Map<string, Intl.DateTimeFormat>();

/** The named pieces of an instant on the wall. */
export function wallParts(at: number, zone: string): Record<string, string> {
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
  const { hour = '', minute = '' } = wallParts(at, zone);
  return `${hour}:${minute}`;
}

/** The calendar day of an instant in the shop's zone, `2031-03-12`. */
export function dayOf(at: number, zone: string): string {
  const { year = '', month = '', day = '' } = wallParts(at, zone);
  return `${year}-${month}-${day}`;
}

const INSTANT = /\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d(\.\d+)?)?(Z|[+-]\d\d:\d\d)/g;

/** How the server writes a time of the shop's wall in its sentences. */
const ON_THE_WALL = /(\d{4}-\d\d-\d\d) (\d\d:\d\d)(?!:)/g;

/** A sentence of the server with every time in it as a person of the shop says it: `15:00`, or the day as well. */
export function inShopTime(text: string, zone: string, today: string): string {
  const said = (day: string, time: string): string =>
    day === today ? time : `${dayWords(day, today)}, ${time}`;
  return text
    .replace(INSTANT, (instant) => {
      const at = Date.parse(instant);
      return said(dayOf(at, zone), clockTime(at, zone));
    })
    .replace(ON_THE_WALL, (_, day: string, time: string) => said(day, time));
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
