import { fail, ok, type Fault, type Result } from '#libs/kernel';

export type PunchIncrement = 'five' | 'tenth' | 'quarter';

/** Five minutes, a tenth of an hour, a quarter of an hour, in seconds. */
const INCREMENTS: Readonly<Record<PunchIncrement, number>> = { five: 300, tenth: 360, quarter: 900 };

export const PUNCH_INCREMENTS = Object.keys(INCREMENTS) as readonly PunchIncrement[];

/**
 * A time of day ("07:52:29" or "07:52") to the nearest increment as "HH:MM", for a payroll view only; the exact punch is
 * what is kept. A tie goes up. Late in the evening the result can be "24:00", the end of that day (ISO 8601): "00:00"
 * would put a clock-off before its clock-on.
 *
 * Source: 29 CFR 785.48(b) for the three increments; the direction of a tie is our choice.
 */
export function roundPunch(punch: string, increment: PunchIncrement): Result<string, Fault<'punch-invalid'>> {
  const match = /^([01]\d|2[0-3]):([0-5]\d)(?::([0-5]\d))?$/.exec(punch);
  if (match === null) {
    return fail('punch-invalid', 'Write a punch as "HH:MM:SS" or "HH:MM", from 00:00:00 to 23:59:59.');
  }
  const [, hour = '0', minute = '0', second = '0'] = match;
  const exact = Number(hour) * 3600 + Number(minute) * 60 + Number(second);
  const size = INCREMENTS[increment];
  const minutes = (Math.floor((exact + size / 2) / size) * size) / 60;
  const twoDigits = (value: number) => String(value).padStart(2, '0');
  return ok(`${twoDigits(Math.floor(minutes / 60))}:${twoDigits(minutes % 60)}`);
}
