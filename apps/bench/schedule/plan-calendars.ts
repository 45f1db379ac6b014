import type { Period, PlanProblem } from '#libs/plan';

/** When technicians work, each different calendar once, as rows of one list. */
export interface Calendars {
  /** When all is surely over. */
  readonly horizon: number;
  /** The calendar of each technician; empty when nobody ever rests until the horizon. */
  readonly of: readonly number[];
  readonly periods: readonly (readonly Period[])[];
}

const joined = (works: readonly Period[]): Period[] => {
  const whole: [number, number][] = [];
  for (const [from, to] of works) {
    const last = whole.at(-1);
    if (last?.[1] === from) last[1] = to;
    else whole.push([from, to]);
  }
  return whole;
};

const meeting = (one: readonly Period[], other: readonly Period[]): Period[] =>
  one.flatMap(([a, b]) =>
    other.flatMap(([c, d]): Period[] =>
      Math.max(a, c) < Math.min(b, d) ? [[Math.max(a, c), Math.min(b, d)]] : [],
    ),
  );

/**
 * The calendars of a problem's technicians. When all have come at `last`, some work goes on whenever everybody works, or
 * a plan could be made better; so nothing is worth while after all of it is done in the times that everybody shares.
 */
export function calendarsOf({ technicians, now }: PlanProblem, last: number, work: number): Calendars {
  const each = technicians.map(({ works }) => joined(works));
  const shared = each.slice(1).reduce((both, one) => meeting(both, one), each[0] ?? []);
  let [left, horizon] = [work, -1];
  for (const [from, to] of shared) {
    const begins = Math.max(from, last);
    if (horizon >= 0 || begins >= to) continue;
    if (to - begins >= left) horizon = begins + left;
    left -= to - begins;
  }
  // Nothing is done after the calendars end, either.
  if (horizon < 0) horizon = Math.max(now + 1, ...each.map((works) => works.at(-1)?.[1] ?? 0));
  const isAlways = each.every((works) => works.some(([from, to]) => from <= now && to >= horizon));
  if (isAlways) return { horizon, of: [], periods: [] };
  const texts = each.map((works) => JSON.stringify(works));
  const distinct = [...new Set(texts)];
  return {
    horizon,
    of: texts.map((text) => distinct.indexOf(text)),
    periods: distinct.map((text) =>
      (JSON.parse(text) as Period[]).filter(([from, to]) => to > now && from < horizon),
    ),
  };
}

/** How a number is written when `unit` minutes are one. */
export type Scale = (time: number) => number;

/**
 * Rows of a model in MiniZinc that make the end `e` of each operation out of its start `s` and working time `d`: it starts in
 * period p and ends in period q of the calendar of whoever does it, and `rest[q] - rest[p]` of that it rests.
 */
export function calendarRows(
  { periods, of, horizon }: Calendars,
  operations: number,
  ways: readonly { readonly operation: number; readonly technician: number }[],
  scale: Scale,
): string[] {
  if (of.length === 0) return [];
  const all = periods.flat();
  const row = (values: readonly number[]): string => `[${values.join(', ')}]`;
  const firsts = periods.map((_, k) => periods.slice(0, k).flat().length + 1);
  const rests = periods.flatMap((list) => {
    let worked = 0;
    return list.map(([from, to]) => {
      const rest = from - worked;
      worked += to - from;
      return rest;
    });
  });
  const n = all.length;
  return [
    `array[1..${n}] of int: opens = ${row(all.map(([from]) => scale(from)))};`,
    `array[1..${n}] of int: closes = ${row(all.map(([, to]) => scale(Math.min(to, horizon))))};`,
    `array[1..${n}] of int: rest = ${row(rests.map(scale))};`,
    `array[1..${operations}] of var 1..${n}: p;`,
    `array[1..${operations}] of var 1..${n}: q;`,
    `constraint forall(i in 1..${operations})(e[i] = s[i] + dur[i] /\\ s[i] >= opens[p[i]] /\\ s[i] < closes[p[i]] /\\ e[i] > opens[q[i]]`,
    '  /\\ e[i] <= closes[q[i]] /\\ q[i] >= p[i] /\\ dur[i] = d[i] + rest[q[i]] - rest[p[i]]);',
    ...(periods.length === 1
      ? []
      : ways.map(({ operation, technician }, w) => {
          const calendar = of[technician] ?? 0;
          const from = firsts[calendar] ?? 1;
          const to = from + (periods[calendar]?.length ?? 1) - 1;
          const within = (name: string): string =>
            `${name}[${operation}] >= ${from} /\\ ${name}[${operation}] <= ${to}`;
          return `constraint x[${w + 1}] = 1 -> (${within('p')} /\\ ${within('q')});`;
        })),
  ];
}

/** The largest number of minutes of which all these times are whole multiples. */
export function unitOf(times: readonly number[]): number {
  const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b));
  return Math.max(
    1,
    times.reduce((unit, time) => divisor(unit, Math.abs(time)), 0),
  );
}
