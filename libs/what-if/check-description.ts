import { fail, ok } from '#libs/kernel';
import type { Fault, FieldFault, Result } from '#libs/kernel';
import type {
  DayPeriod,
  HoursSpread,
  KindOfOrder,
  YearDescription,
  YearVehicle,
} from './year-description.js';

export type DescriptionFault = Fault<'year-description-invalid'>;

const WEEKS = 520;
const PER_DAY = 1_000_000;
const LONGEST = 100_000;
const MILLION = 1_000_000;
const DAY = 1440;

type Say = (pointer: string, detail: string) => void;

export const isWhole = (value: number, least: number, most: number): boolean =>
  Number.isSafeInteger(value) && value >= least && value <= most;

/** Everything in the description of a year that cannot be. */
export function checkDescription(description: YearDescription): Result<YearDescription, DescriptionFault> {
  const fields: FieldFault[] = [];
  const say: Say = (pointer, detail) => void fields.push({ pointer, detail });
  const { weeks, arrivals, booked, kinds, overrun, promise, closedDays, vehicles } = description;
  if (!isWhole(weeks, 1, WEEKS)) say('/weeks', `A year has 1 to ${WEEKS} whole weeks here.`);
  arrivals.forEach((one, k) => {
    dayPeriodFaults(one, `/arrivals/${k}`, say);
    if (!isWhole(one.perDayThousandths, 0, PER_DAY))
      say(`/arrivals/${k}/perDayThousandths`, `Cars a day are whole thousandths, 0 to ${PER_DAY}.`);
  });
  if (arrivals.length === 0) say('/arrivals', 'Say on which days cars come.');
  if (booked !== undefined && !(isWhole(booked.sharePpm, 0, MILLION) && isWhole(booked.days, 0, 365)))
    say('/booked', 'A share is in millionths, and an appointment is made 0 to 365 days ahead.');
  if (kinds.length === 0) say('/kinds', 'Name at least one kind of repair order.');
  kinds.forEach((kind, k) => kindFaults(kind, `/kinds/${k}`, say));
  if (kinds.length > 0 && kinds.every(({ share }) => share === 0))
    say('/kinds', 'At least one kind has a share above 0.');
  if (overrun !== undefined && !isWhole(overrun.meanPpm, 1, 100 * MILLION))
    say('/overrun/meanPpm', 'Actual over expected hours is above 0, in millionths.');
  if (overrun !== undefined) spreadFaults(overrun, '/overrun', say);
  if (
    !isWhole(promise.leastDays, 0, 365) ||
    !isWhole(promise.minutesPerDay, 1, LONGEST) ||
    !isWhole(promise.timeOfDay, 0, DAY)
  )
    say(
      '/promise',
      'A promise is 0 to 365 days ahead, at a minute of a day, for at least 1 minute of work a day.',
    );
  closedDays?.forEach((day, k) => {
    if (!isWhole(day, 0, WEEKS * 7)) say(`/closedDays/${k}`, 'Days are counted from the first Monday, 0.');
  });
  vehicles?.forEach((vehicle, k) => vehicleFaults(vehicle, `/vehicles/${k}`, say));
  if (fields.length === 0) return ok(description);
  const detail = fields.map((one) => `${one.pointer}: ${one.detail}`).join(' ');
  return fail('year-description-invalid', detail, { fields });
}

export function dayPeriodFaults({ weekday, from, to }: DayPeriod, pointer: string, say: Say): void {
  if (!isWhole(weekday, 1, 7)) say(`${pointer}/weekday`, 'Days of the week are 1 (Monday) to 7.');
  if (!isWhole(from, 0, DAY) || !isWhole(to, 0, DAY) || from >= to)
    say(pointer, 'A time of day runs forward, in whole minutes from 0 to 1440.');
}

function spreadFaults({ shape, spreadPpm }: Partial<HoursSpread>, pointer: string, say: Say): void {
  if (shape === 'lognormal' && !isWhole(spreadPpm ?? -1, 0, 2 * MILLION))
    say(`${pointer}/spreadPpm`, 'A lognormal spread is 0 to 2 000 000 millionths.');
}

function vehicleFaults({ weightKg, heightMm }: YearVehicle, pointer: string, say: Say): void {
  if (!isWhole(weightKg, 1, LONGEST) || !isWhole(heightMm ?? 1, 1, LONGEST))
    say(pointer, 'A vehicle has whole kilograms and millimetres.');
}

function kindFaults(
  { share, weight, promisedDays, vehicle, operations }: KindOfOrder,
  pointer: string,
  say: Say,
): void {
  if (!isWhole(promisedDays ?? 0, 0, 365))
    say(`${pointer}/promisedDays`, 'A promise is 0 to 365 open days ahead.');
  if (vehicle !== undefined) vehicleFaults(vehicle, `${pointer}/vehicle`, say);
  if (!isWhole(share, 0, MILLION)) say(`${pointer}/share`, 'A share is a whole number from 0.');
  if (!isWhole(weight ?? 1, 0, 1000)) say(`${pointer}/weight`, 'A weight is a whole number from 0 to 1000.');
  if (operations.length === 0) say(`${pointer}/operations`, 'A repair order has work in it.');
  const earlier = new Set<string>();
  operations.forEach(({ id, hours, after, parts }, k) => {
    const at = `${pointer}/operations/${k}`;
    if (!isWhole(hours.minutes, 1, LONGEST))
      say(`${at}/hours/minutes`, 'Work takes at least one whole minute.');
    spreadFaults(hours, `${at}/hours`, say);
    for (const other of after ?? [])
      if (!earlier.has(other)) say(`${at}/after`, `"${other}" does not stand before it in the list.`);
    if (earlier.has(id)) say(`${at}/id`, `"${id}" stands here twice.`);
    earlier.add(id);
    if (
      parts !== undefined &&
      !(
        isWhole(parts.sharePpm, 0, MILLION) &&
        isWhole(parts.leastMinutes, 0, LONGEST) &&
        isWhole(parts.mostMinutes, parts.leastMinutes, LONGEST)
      )
    )
      say(`${at}/parts`, 'Parts are late for a share in millionths, by whole minutes, the least first.');
  });
}
