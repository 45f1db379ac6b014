import { fail, ok, type Result } from '#libs/kernel';
import type { KindOfOrder, Overrun, WhatIfFloor, YearDescription } from '#libs/what-if';
import type { FloorFacts } from '../queries/what-if-shop.query.js';
import type { History, PastOrder } from '../queries/what-if-history.query.js';
import { mostPerWeek } from './most-per-week.js';
import { kindOfOrder } from './kind-of-order.js';
import type { WhatIfBasis } from './what-if-question.js';

/** Fewer say nothing about a year. */
const LEAST_ORDERS = 10;
const LEAST_FINISHED = 10;
/** Where too little was clocked: hours are met on average, two in three cases within about a quarter. */
const USUAL_OVERRUN: Overrun = { meanPpm: 1_000_000, shape: 'lognormal', spreadPpm: 250_000 };
/** Of a shop without a history: so much of the time of its scarcest people or bays is asked for. */
const USUAL_LOAD = 0.8;
const USUAL_WEIGHT_KG = 1500;
const MINUTES_A_DAY = 240;
const BEFORE_CLOSING = 60;
/** Beyond any replay and the promises in it. */
const MOST_DAYS = 3000;
const DAY_MS = 86_400_000;
const MILLION = 1_000_000;

export interface YearOfShop {
  readonly year: YearDescription;
  readonly basis: WhatIfBasis;
}

/** Years like the last months of this shop, or like its catalogue where it has no such months. */
export function yearOfShop(
  facts: FloorFacts,
  floor: WhatIfFloor,
  past: History,
  weeks: number,
): Result<YearOfShop> {
  const isKnown = past.orders.length >= LEAST_ORDERS;
  if (!isKnown && facts.operations.every(({ hundredths }) => hundredths === 0))
    return fail(
      'request-invalid',
      'There is no work to replay: too few repair orders in the last 90 days and no operation with hours in the catalogue. Enter the operations that you do often.',
      { fields: [{ pointer: '', detail: 'Enter operations with steps into the catalogue first.' }] },
    );
  const openDays = new Set(floor.opening.map(({ weekday }) => weekday));
  const kinds = isKnown
    ? past.orders.map((order) => kindOfOrder(order, openDays, USUAL_WEIGHT_KG))
    : kindsOfCatalogue(facts);
  const overrun = overrunOf(past.orders);
  const promises = past.orders.flatMap(({ promisedMinute }) => promisedMinute ?? []).sort((a, b) => a - b);
  return ok({
    year: {
      weeks,
      arrivals: isKnown ? pastArrivals(facts, past) : usualArrivals(facts, floor, kinds),
      kinds,
      overrun: overrun.overrun,
      closedDays: facts.closedDays
        .map((day) => Math.round((Date.parse(day) - Date.parse(facts.monday)) / DAY_MS))
        .filter((day) => day < MOST_DAYS),
      promise: {
        leastDays: 1,
        minutesPerDay: MINUTES_A_DAY,
        timeOfDay: promises[promises.length >> 1] ?? facts.dayEndsMinute,
      },
    },
    basis: {
      source: isKnown ? 'history' : 'catalogue',
      repairOrders: isKnown ? past.orders.length : 0,
      finishedWork: overrun.finished,
      from: past.from.toISOString(),
      to: past.to.toISOString(),
      assumed: assumptions(past, isKnown, overrun.isKnown),
    },
  });
}

function assumptions({ orders }: History, isKnown: boolean, areHoursKnown: boolean): string[] {
  const unweighed = orders.filter(({ weightKg }) => weightKg === null).length;
  const unpromised = orders.filter(({ promisedDay }) => promisedDay === null).length;
  return [
    ...(isKnown
      ? [
          `Each car of a year is one of the ${orders.length} that came in the last 90 days, drawn again by chance, with the book hours, needs, parts and promise that it had.`,
        ]
      : [
          `In the last 90 days only ${orders.length} cars had work done, so each car of a year brings one operation of the catalogue, all equally often.`,
          `As many cars come as keep the scarcest of the technicians (by their skills) and the bays (by what they are fit for) busy for ${USUAL_LOAD * 100} % of their time.`,
        ]),
    'Cars come by chance between opening and an hour before closing, without appointments.',
    ...(areHoursKnown
      ? []
      : [
          'Too little was clocked: work takes its book hours on average, and two in three times within a quarter of them.',
        ]),
    ...(isKnown && unweighed > 0 ? [`${unweighed} cars of unknown weight weigh ${USUAL_WEIGHT_KG} kg.`] : []),
    ...(!isKnown ? [`Every car weighs ${USUAL_WEIGHT_KG} kg.`] : []),
    ...(!isKnown || unpromised > 0
      ? [
          `Where nothing was promised a car is ready on the next open day, and a day later for each ${MINUTES_A_DAY / 60} hours of work.`,
        ]
      : []),
    'The shop is empty on the first day. Lateness is counted by the clock, nights included, and the same for every car.',
  ];
}

/** Cars a day of the week: those that came, by the number of such days since the first of them. */
function pastArrivals(facts: FloorFacts, { orders, to }: History): YearDescription['arrivals'] {
  const first = Date.parse(orders[0]?.day ?? to.toISOString().slice(0, 10));
  const days = Math.max(7, Math.round((to.getTime() - first) / DAY_MS));
  const counts = new Map<number, number>();
  for (const { weekday } of orders) counts.set(weekday, (counts.get(weekday) ?? 0) + 1);
  return [...counts]
    .sort(([a], [b]) => a - b)
    .map(([weekday, count]) => ({
      ...{ weekday, ...dropOff(facts) },
      perDayThousandths: Math.round((count * 7000) / days),
    }));
}

function usualArrivals(
  facts: FloorFacts,
  floor: WhatIfFloor,
  kinds: readonly KindOfOrder[],
): YearDescription['arrivals'] {
  const perDay = (USUAL_LOAD * mostPerWeek(floor, kinds)) / floor.opening.length;
  return floor.opening.map(({ weekday }) => ({
    ...{ weekday, ...dropOff(facts) },
    perDayThousandths: Math.round(perDay * 1000),
  }));
}

const dropOff = ({ dayStartsMinute, dayEndsMinute }: FloorFacts): { from: number; to: number } => ({
  from: dayStartsMinute,
  to: Math.max(dayStartsMinute + 1, dayEndsMinute - BEFORE_CLOSING),
});

function kindsOfCatalogue({ operations }: FloorFacts): KindOfOrder[] {
  return operations
    .filter(({ hundredths }) => hundredths > 0)
    .map(({ id, name, hundredths, needsLift, bayKinds, skills, toolIds }) => ({
      name,
      share: 1,
      vehicle: { weightKg: USUAL_WEIGHT_KG },
      operations: [
        {
          id,
          hours: {
            minutes: Math.max(1, Math.round(hundredths * 0.6)),
            shape: 'lognormal',
            spreadPpm: 250_000,
          },
          bay: { lift: needsLift, kinds: bayKinds },
          skills,
          tools: toolIds,
        },
      ],
    }));
}

/** Clocked against book hours of finished work: mean and spread of the logarithm, the former within reason. */
function overrunOf(orders: readonly PastOrder[]): { overrun: Overrun; finished: number; isKnown: boolean } {
  const logs = orders
    .flatMap(({ work }) => work)
    .filter(
      ({ isFinished, clockedSeconds, bookHundredths }) =>
        isFinished && clockedSeconds > 0 && bookHundredths > 0,
    )
    .map(({ clockedSeconds, bookHundredths }) => Math.log(clockedSeconds / (bookHundredths * 36)));
  const n = logs.length;
  if (n < LEAST_FINISHED) return { overrun: USUAL_OVERRUN, finished: n, isKnown: false };
  const mean = logs.reduce((sum, log) => sum + log, 0) / n;
  const variance = logs.reduce((sum, log) => sum + (log - mean) ** 2, 0) / (n - 1);
  const within = (value: number, least: number, most: number): number =>
    Math.round(MILLION * Math.min(most, Math.max(least, value)));
  const overrun: Overrun = {
    meanPpm: within(Math.exp(mean + variance / 2), 0.5, 3),
    shape: 'lognormal',
    spreadPpm: within(Math.sqrt(variance), 0, 1),
  };
  return { overrun, finished: n, isKnown: true };
}
