import { ok } from '#libs/kernel';
import type { Result } from '#libs/kernel';
import { checkDescription } from './check-description.js';
import type { DescriptionFault } from './check-description.js';
import { drawn, factorAt, streamOf } from './drawn.js';
import type {
  KindOfOperation,
  KindOfOrder,
  Year,
  YearDescription,
  YearOperation,
  YearOrder,
} from './year-description.js';

const DAY = 1440;
/** Past its end a year is looked at for promises only. */
const DAYS_AFTER = 400;

/**
 * A year of this kind, always the same for a seed. Every number has a stream of its own, so a change of one thing in the
 * description (how often parts are late, say) leaves all the others as they were.
 */
export function generateYear(description: YearDescription, seed: number): Result<Year, DescriptionFault> {
  const checked = checkDescription(description);
  if (!checked.ok) return checked;
  const days = openDays(description);
  const orders: YearOrder[] = [];
  for (let day = 0; day < description.weeks * 7; day++)
    for (const arrives of arrivalsOn(description, day, seed))
      orders.push(orderOf(description, orders.length, arrives, days, seed));
  return ok({ weeks: description.weeks, closedDays: description.closedDays ?? [], orders });
}

/** Days on which cars may come, in order. */
function openDays({ weeks, arrivals, closedDays }: YearDescription): number[] {
  const weekdays = new Set(arrivals.map(({ weekday }) => weekday));
  const closed = new Set(closedDays);
  return Array.from({ length: weeks * 7 + DAYS_AFTER }, (_, day) => day).filter(
    (day) => weekdays.has((day % 7) + 1) && !closed.has(day),
  );
}

/** A Poisson process: the gaps are exponential and what is left of one at the end of the period is forgotten. */
function arrivalsOn({ arrivals, closedDays }: YearDescription, day: number, seed: number): number[] {
  if (closedDays?.includes(day) === true) return [];
  return arrivals
    .flatMap(({ weekday, from, to, perDayThousandths }, k) => {
      if (weekday !== (day % 7) + 1 || perDayThousandths === 0) return [];
      const gap = streamOf(seed, 'gap', day, k);
      const mean = ((to - from) * 1000) / perDayThousandths;
      const times: number[] = [];
      for (let at = from - mean * Math.log1p(-gap()); at < to; at -= mean * Math.log1p(-gap()))
        times.push(day * DAY + Math.floor(at));
      return times;
    })
    .sort((a, b) => a - b);
}

function orderOf(
  description: YearDescription,
  index: number,
  arrives: number,
  days: readonly number[],
  seed: number,
): YearOrder {
  // What cannot turn out otherwise is not drawn, which moves no other draw as each has a stream of its own.
  const kind = kindAt(description.kinds, () => drawn(seed, 'kind', index));
  const { booked, vehicles = [] } = description;
  const isBooked = happens(booked?.sharePpm, () => drawn(seed, 'booked', index));
  const vehicle =
    kind.vehicle ??
    (vehicles.length === 0
      ? undefined
      : vehicles[Math.floor(drawn(seed, 'vehicle', index) * vehicles.length)]);
  const operations = kind.operations.map((operation) =>
    operationOf(description, operation, { index, arrives, seed }),
  );
  const expected = operations.reduce((sum, { minutes }) => sum + minutes, 0);
  return {
    id: `${index}`,
    arrives,
    known: isBooked ? Math.max(0, arrives - (booked?.days ?? 0) * DAY) : arrives,
    promised: promisedAt(description, arrives, { expected, promisedDays: kind.promisedDays }, days),
    weight: kind.weight ?? 1,
    vehicle: { weightKg: vehicle?.weightKg ?? null, heightMm: vehicle?.heightMm ?? null },
    operations,
  };
}

const happens = (sharePpm: number | undefined, part: () => number): boolean =>
  sharePpm !== undefined && sharePpm > 0 && part() * 1_000_000 < sharePpm;

function kindAt(kinds: readonly KindOfOrder[], part: () => number): KindOfOrder {
  let left = (kinds.length === 1 ? 0 : part()) * kinds.reduce((sum, { share }) => sum + share, 0);
  const found = kinds.find(({ share }) => (left -= share) < 0) ?? kinds.at(-1);
  if (found === undefined) throw new RangeError('a year needs a kind of repair order');
  return found;
}

function operationOf(
  { overrun }: YearDescription,
  { hours, parts, ...operation }: KindOfOperation,
  { index, arrives, seed }: { index: number; arrives: number; seed: number },
): YearOperation {
  const own = (word: string) => (): number => drawn(seed, word, index, operation.id);
  const idOf = (id: string): string => `${index}/${id}`;
  const minutes = atLeastOne(hours.minutes * factorAt(own('hours'), hours));
  const ratio = ((overrun?.meanPpm ?? 1_000_000) / 1_000_000) * factorAt(own('overrun'), overrun ?? {});
  const isLate = happens(parts?.sharePpm, own('parts'));
  const wait = (): number =>
    parts === undefined
      ? 0
      : parts.leastMinutes + own('parts wait')() * (parts.mostMinutes - parts.leastMinutes);
  return {
    ...operation,
    id: idOf(operation.id),
    after: operation.after?.map(idOf) ?? [],
    minutes,
    actualMinutes: atLeastOne(minutes * ratio),
    partsAt: isLate ? arrives + Math.round(wait()) : null,
  };
}

const atLeastOne = (minutes: number): number => Math.max(1, Math.round(minutes));

function promisedAt(
  { promise }: YearDescription,
  arrives: number,
  { expected, promisedDays }: { expected: number; promisedDays?: number },
  days: readonly number[],
): number {
  const ahead = promisedDays ?? promise.leastDays + Math.floor(expected / promise.minutesPerDay);
  const today = Math.floor(arrives / DAY);
  // By bisection: a year has a few hundred open days and thousands of cars.
  let [low, high] = [0, days.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((days[middle] ?? 0) < today) low = middle + 1;
    else high = middle;
  }
  const day = days[Math.min(low + ahead, days.length - 1)] ?? today;
  return Math.max(day * DAY + promise.timeOfDay, arrives);
}
