import type { KindOfOrder, WhatIfFloor, YearDescription } from '#libs/what-if';

const WEEK = [1, 2, 3, 4, 5];
const hours = (weekdays: readonly number[]) =>
  weekdays.flatMap((weekday) => [
    { weekday, from: 480, to: 720 },
    { weekday, from: 750, to: 1020 },
  ]);
const lift = { lift: true };
const spread = (minutes: number) => ({ minutes, shape: 'lognormal', spreadPpm: 350_000 }) as const;
const parts = { sharePpm: 150_000, leastMinutes: 1440, mostMinutes: 4320 };

/** What an independent shop sees: our own invention, no shop's figures. */
const KINDS: readonly KindOfOrder[] = [
  {
    name: 'look over and fluids',
    share: 40,
    operations: [
      { id: 'walk', hours: spread(30), bay: lift },
      { id: 'fluids', hours: spread(45), after: ['walk'], bay: lift },
    ],
  },
  {
    name: 'brakes',
    share: 25,
    operations: [
      { id: 'walk', hours: spread(30), bay: lift },
      { id: 'front', hours: spread(90), after: ['walk'], bay: lift, teardown: 'hubs', skills: ['brakes'] },
      {
        id: 'rear',
        hours: spread(80),
        after: ['front'],
        bay: lift,
        teardown: 'hubs',
        skills: ['brakes'],
        parts,
      },
      { id: 'road', hours: spread(20), after: ['rear'] },
    ],
  },
  {
    name: 'suspension',
    share: 15,
    operations: [
      { id: 'off', hours: spread(100), bay: lift, teardown: 'arms' },
      { id: 'press', hours: spread(60), after: ['off'], tools: ['press'] },
      { id: 'on', hours: spread(110), after: ['press'], bay: lift, teardown: 'arms', parts },
      { id: 'align', hours: spread(50), after: ['on'], bay: { lift: true, kinds: ['align'] } },
    ],
  },
  {
    name: 'electrics',
    share: 20,
    weight: 2,
    operations: [
      { id: 'find', hours: spread(80), bay: {}, skills: ['electrics'] },
      { id: 'mend', hours: spread(70), after: ['find'], bay: {}, skills: ['electrics'], parts },
    ],
  },
];

/** A year in which so many cars come on a working day. */
export const yearOf = (carsPerDay: number, weeks = 52): YearDescription => ({
  weeks,
  arrivals: WEEK.map((weekday) => ({
    ...{ weekday, from: 450, to: 960 },
    perDayThousandths: Math.round(carsPerDay * 1000 * (weekday === 1 ? 1.2 : 0.95)),
  })),
  booked: { sharePpm: 600_000, days: 3 },
  kinds: KINDS,
  overrun: { meanPpm: 1_050_000, shape: 'lognormal', spreadPpm: 250_000 },
  promise: { leastDays: 0, minutesPerDay: 150, timeOfDay: 1020 },
  vehicles: [{ weightKg: 1200 }, { weightKg: 1500 }, { weightKg: 2100, heightMm: 1900 }],
});

/** So many bays, the first of them for alignment, all with lifts but the last of four; everybody works the week. */
export function floorOf(bays: number, technicians: number): WhatIfFloor {
  return {
    opening: hours(WEEK),
    technicians: Array.from({ length: technicians }, (_, k) => ({
      id: `technician ${k + 1}`,
      hours: hours(WEEK),
      skills: [...(k % 3 < 2 ? ['brakes'] : []), ...(k % 2 === 0 ? ['electrics'] : [])],
    })),
    bays: Array.from({ length: bays }, (_, k) => ({
      id: `bay ${k + 1}`,
      kind: k === 0 ? 'align' : 'general',
      lift: k % 4 === 3 ? null : { kind: 'two-post', capacityKg: 3500 },
    })),
    tools: [{ id: 'press 1', kind: 'press' }],
  };
}
