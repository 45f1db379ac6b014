import { generateYear, replay } from './index.js';
import type { WhatIfFloor, Year, YearDescription } from './index.js';

const ALWAYS = [1, 2, 3, 4, 5, 6, 7].map((weekday) => ({ weekday, from: 0, to: 1440 }));
const SERVICE = 60;

/** One bay, one technician, day and night; all cars look the same to the planner, so it takes them as they come. */
const oneOfEach: WhatIfFloor = {
  opening: ALWAYS,
  technicians: [{ id: 'ida', hours: ALWAYS }],
  bays: [{ id: 'bay' }],
};

function queue(load: number, weeks: number, shape: 'fixed' | 'exponential' | 'lognormal'): YearDescription {
  return {
    weeks,
    arrivals: ALWAYS.map((day) => ({
      ...day,
      perDayThousandths: Math.round((load * 1440 * 1000) / SERVICE),
    })),
    kinds: [{ name: 'all', share: 1, operations: [{ id: 'work', hours: { minutes: SERVICE }, bay: {} }] }],
    overrun: { meanPpm: 1_000_000, shape, spreadPpm: 500_000 },
    promise: { leastDays: 0, minutesPerDay: 1440, timeOfDay: 0 },
  };
}

function yearOf(description: YearDescription, seed: number): Year {
  const made = generateYear(description, seed);
  if (!made.ok) throw new Error(made.fault.detail);
  return made.value;
}

/** Waiting times by Lindley's recursion (D. V. Lindley 1952): W' = max(0, W + S - A). */
function waitsOf({ orders }: Year): number[] {
  let free = 0;
  return orders.map(({ arrives, operations }) => {
    const start = Math.max(free, arrives);
    free = start + (operations[0]?.actualMinutes ?? 0);
    return start - arrives;
  });
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/**
 * Mean wait of M/G/1, λ E(S²) / 2 (1 - ρ) (F. Pollaczek 1930, A. Y. Khinchine 1932; L. Kleinrock, "Queueing Systems" 1,
 * 1975, section 5.6). E(S²) over the square of the mean is 1 for fixed hours, 2 for exponential, exp(σ²) for lognormal.
 */
const wait = (load: number, secondMoment: number): number =>
  (load * SERVICE * secondMoment) / (2 * (1 - load));

describe('a shop that is a plain queue', () => {
  it.each([
    ['fixed', 0.6, 1],
    ['exponential', 0.6, 2],
    ['lognormal', 0.7, Math.exp(0.25)],
  ] as const)('waits as long as the formula says, %s hours at load %f', (shape, load, secondMoment) => {
    const waits = [1, 2, 3].flatMap((seed) => waitsOf(yearOf(queue(load, 520, shape), seed)));
    expect(waits.length).toBeGreaterThan(150_000);
    expect(mean(waits) / wait(load, secondMoment)).toBeGreaterThan(0.95);
    expect(mean(waits) / wait(load, secondMoment)).toBeLessThan(1.05);
  });

  it.each([
    ['fixed', 0.6],
    ['exponential', 0.5],
  ] as const)('and the replay waits the same, %s hours at load %f', (shape, load) => {
    const year = yearOf(queue(load, 8, shape), 4);
    const done = replay(oneOfEach, year, { patience: 10, gapMinutes: 0, mostOrders: 200 });
    if (!done.ok) throw new Error(done.fault.detail);
    const arrives = new Map(year.orders.map((order) => [order.id, order.arrives]));
    const replayed = done.value.worked.map(({ order, start }) => start - (arrives.get(order) ?? 0));
    const recursion = waitsOf(year);
    expect(replayed.length).toBeGreaterThan(600);
    expect(replayed.length).toBeGreaterThanOrEqual(year.orders.length - 20);
    // The server never rests while a car is there, so that the waits are those of the recursion, whoever is first.
    expect(mean(replayed) / mean(recursion)).toBeCloseTo(1, shape === 'fixed' ? 2 : 1);
  });
});

describe('a generated year', () => {
  const described = (lateShare: number): YearDescription => ({
    ...queue(0.5, 520, 'lognormal'),
    kinds: [
      {
        name: 'rare',
        share: 1,
        operations: [
          {
            id: 'rare',
            hours: { minutes: 100, shape: 'lognormal', spreadPpm: 400_000 },
            parts: { sharePpm: lateShare, leastMinutes: 100, mostMinutes: 300 },
          },
        ],
      },
      {
        name: 'often',
        share: 3,
        operations: [{ id: 'often', hours: { minutes: 50, shape: 'exponential' } }],
      },
    ],
  });

  it('has the cars, the hours and the late parts that were described', () => {
    const { orders } = yearOf(described(200_000), 9);
    // Poisson: 12 cars a day for 3640 days, standard deviation 209.
    expect(Math.abs(orders.length - 43_680)).toBeLessThan(840);
    const of = (kind: string) =>
      orders.flatMap(({ arrives, operations }) =>
        operations.filter(({ id }) => id.endsWith(kind)).map((operation) => ({ arrives, ...operation })),
      );
    const [rare, often] = [of('rare'), of('often')];
    expect(rare.length / orders.length).toBeCloseTo(0.25, 1);
    expect(mean(rare.map(({ minutes }) => minutes))).toBeGreaterThan(98);
    expect(mean(rare.map(({ minutes }) => minutes))).toBeLessThan(102);
    expect(mean(often.map(({ minutes }) => minutes))).toBeGreaterThan(49);
    expect(mean(often.map(({ minutes }) => minutes))).toBeLessThan(51);
    const waits = rare.flatMap(({ arrives, partsAt }) => (partsAt === null ? [] : [partsAt - arrives]));
    expect(waits.length / rare.length).toBeGreaterThan(0.185);
    expect(waits.length / rare.length).toBeLessThan(0.215);
    expect(Math.min(...waits)).toBeGreaterThanOrEqual(100);
    expect(Math.max(...waits)).toBeLessThanOrEqual(300);
    expect(mean(waits)).toBeGreaterThan(195);
    expect(mean(waits)).toBeLessThan(205);
  });

  it('keeps every number but those that were described otherwise', () => {
    const [seldom, always] = [0, 1_000_000].map(
      (share) => yearOf({ ...described(share), weeks: 20 }, 5).orders,
    );
    const withoutParts = (orders: Year['orders'] = []) =>
      orders.map((order) => ({
        ...order,
        operations: order.operations.map((operation) => ({ ...operation, partsAt: null })),
      }));
    expect(withoutParts(always)).toEqual(withoutParts(seldom));
    expect(always).not.toEqual(seldom);
  });

  it('promises the end of the day that the work needs, over what is closed', () => {
    const day = (weekday: number) => ({ weekday, from: 480, to: 481, perDayThousandths: 1_000_000 });
    const description: YearDescription = {
      ...queue(0.5, 2, 'fixed'),
      arrivals: [day(1), day(2), day(5)],
      kinds: [{ name: 'long', share: 1, operations: [{ id: 'work', hours: { minutes: 200 } }] }],
      promise: { leastDays: 0, minutesPerDay: 200, timeOfDay: 1020 },
      closedDays: [4],
    };
    const byDay = new Map(
      yearOf(description, 1).orders.map(({ arrives, promised }) => [Math.floor(arrives / 1440), promised]),
    );
    // Monday for Tuesday; Tuesday over the closed Friday for the next Monday.
    expect([...byDay].slice(0, 3)).toEqual([
      [0, 1440 + 1020],
      [1, 7 * 1440 + 1020],
      [7, 8 * 1440 + 1020],
    ]);
  });

  it('says what cannot be in a description', () => {
    const made = generateYear({ ...queue(0.5, 0, 'fixed'), kinds: [] }, 1);
    expect(made).toMatchObject({ ok: false, fault: { code: 'year-description-invalid' } });
    if (made.ok) return;
    expect(made.fault.fields?.map(({ pointer }) => pointer)).toEqual(['/weeks', '/kinds']);
  });
});
