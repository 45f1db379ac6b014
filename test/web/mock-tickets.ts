import type { Ticket } from '../../apps/web/src/api/types.js';
import { accounts, at, id } from './mock-data.js';

interface Sketch {
  readonly n: number;
  readonly car: string;
  readonly job: string;
  readonly book: number;
  readonly where?: readonly [bay: number, from: string, to: string, technician: number];
  readonly more?: Partial<Ticket>;
}
const plates: Readonly<Record<string, string>> = { 'Corvane Talis': 'RTN 118', 'Ostrel Dace': 'KLV 40R' };

function ticket({ n, car, job, book, where, more }: Sketch): Ticket {
  const technician = accounts.find((one) => one.id === id(1, where?.[3] ?? 0));
  return {
    workOrderId: id(3, n),
    workOrderNumber: n,
    repairOrderId: id(4, n),
    repairOrderNumber: 1100 + (n % 40),
    title: job,
    vehicle: { label: car, plate: plates[car] ?? `TM ${n}` },
    bookHundredths: book,
    clockedSeconds: 0,
    state: 'released',
    holds: [],
    canStart: false,
    claim: null,
    assignment: where
      ? {
          id: id(5, n),
          version: 1,
          bayId: id(2, where[0]),
          technicianId: id(1, where[3]),
          technicianName: technician?.displayName ?? '',
          startsAt: at(where[1]),
          endsAt: at(where[2]),
        }
      : null,
    unsafe: false,
    cautions: [],
    promisedAt: at('16:30'),
    ...more,
  };
}

const claimed = (n: number, since: string): Ticket['claim'] => ({
  technicianId: id(1, n),
  displayName: accounts.find((one) => one.id === id(1, n))?.displayName ?? '',
  claimedAt: at(since),
});
const running = (technician: number, seconds: number, since: string): Partial<Ticket> => ({
  state: 'on-the-clock',
  clockedSeconds: seconds,
  claim: claimed(technician, since),
});
const done = (technician: number, seconds: number): Partial<Ticket> => ({
  state: 'checked',
  clockedSeconds: seconds,
  claim: claimed(technician, '07:30'),
});

/** One of everything that a ticket can be. */
const sketches: readonly Sketch[] = [
  {
    n: 2474,
    car: 'Halbern Otterley',
    job: 'Timing belt kit',
    book: 220,
    where: [1, '07:30', '09:45', 11],
    more: done(11, 7500),
  },
  {
    n: 2481,
    car: 'Corvane Talis',
    job: 'Front pads and discs',
    book: 160,
    where: [1, '10:00', '11:36', 11],
    more: {
      ...running(11, 2520, '09:58'),
      unsafe: true,
      cautions: [
        'Support the vehicle on the lift arms before the wheels come off.',
        'Brake dust: wet-clean, never blow off.',
      ],
    },
  },
  {
    n: 2490,
    car: 'Ostrel Dace',
    job: 'Rear wheel bearing, left',
    book: 130,
    where: [1, '12:30', '13:48', 11],
    more: { canStart: true },
  },
  {
    n: 2493,
    car: 'Lumora Perrin',
    job: 'Exhaust, centre and rear',
    book: 230,
    where: [1, '14:00', '16:18', 11],
  },
  {
    n: 2476,
    car: 'Velmara Quill',
    job: 'Lower arm and ball joint',
    book: 240,
    where: [2, '07:30', '09:54', 12],
    more: running(12, 11_100, '07:34'),
  },
  {
    n: 2488,
    car: 'Tarrik Kestin',
    job: 'Rear shock absorbers, pair',
    book: 140,
    where: [2, '11:15', '12:39', 12],
  },
  { n: 2495, car: 'Halbern Grieve', job: 'Clutch kit', book: 390, where: [2, '13:00', '16:54', 12] },
  {
    n: 2479,
    car: 'Ostrel Dace',
    job: 'Power steering hose',
    book: 320,
    where: [3, '08:00', '11:12', 13],
    more: { holds: [{ kind: 'decision', detail: 'the owner has not answered yet' }] },
  },
  { n: 2491, car: 'Corvane Umber', job: 'Handbrake cables', book: 160, where: [3, '12:00', '13:36', 13] },
  {
    n: 2502,
    car: 'Velmara Brisk',
    job: 'Coolant leak at the water pump housing',
    book: 150,
    where: [3, '14:15', '15:45', 13],
  },
  {
    n: 2477,
    car: 'Lumora Perrin',
    job: 'Oil and filter',
    book: 90,
    where: [4, '07:30', '08:24', 14],
    more: done(14, 2900),
  },
  {
    n: 2478,
    car: 'Tarrik Sennet',
    job: 'Brake fluid',
    book: 75,
    where: [4, '08:45', '09:30', 14],
    more: done(14, 2700),
  },
  {
    n: 2483,
    car: 'Halbern Otterley',
    job: 'Automatic gearbox oil',
    book: 260,
    where: [4, '09:45', '12:21', 14],
    more: { state: 'paused', clockedSeconds: 2700, claim: claimed(14, '09:40') },
  },
  { n: 2494, car: 'Corvane Talis', job: '60 000 km service', book: 250, where: [4, '13:15', '15:45', 14] },
  {
    n: 2480,
    car: 'Velmara Quill',
    job: 'Four-wheel alignment',
    book: 120,
    where: [5, '08:15', '09:27', 15],
    more: done(15, 4000),
  },
  { n: 2486, car: 'Corvane Umber', job: 'Align front axle', book: 25, where: [5, '11:45', '12:00', 15] },
  {
    n: 2489,
    car: 'Tarrik Kestin',
    job: 'Four-wheel alignment',
    book: 50,
    where: [5, '13:00', '13:30', 15],
    more: { unsafe: true },
  },
  {
    n: 2497,
    car: 'Lumora Aster with a very long name that no ticket can hold',
    job: 'Camber bolts, then align',
    book: 170,
    where: [5, '14:30', '16:12', 15],
  },
  {
    n: 2498,
    car: 'Velmara Quill',
    job: 'Clutch slave cylinder leak',
    book: 220,
    more: { canStart: true, state: 'claimed', claim: claimed(11, '10:20') },
  },
  { n: 2500, car: 'Tarrik Kestin', job: 'Annual service', book: 180, more: { canStart: true } },
  {
    n: 2501,
    car: 'Lumora Perrin',
    job: 'Air-con not cold, find cause',
    book: 120,
    more: { canStart: true, cautions: ['Refrigerant: only with the certificate and the recovery unit.'] },
  },
  { n: 2505, car: 'Ostrel Marlin', job: 'Wiper linkage', book: 40, more: { canStart: true } },
  {
    n: 2472,
    car: 'Corvane Umber',
    job: 'Head gasket',
    book: 900,
    more: {
      holds: [
        { kind: 'parts', detail: 'gasket set due Thursday 13 March' },
        { kind: 'tool', detail: 'cam locking kit is on 2474 until 13:00' },
      ],
    },
  },
  {
    n: 2503,
    car: 'Lumora Aster',
    job: 'Head-lamp wiring',
    book: 190,
    more: { holds: [{ kind: 'technician', detail: 'nobody with electrics is free before 14:00' }] },
  },
  {
    n: 2506,
    car: 'Velmara Brisk',
    job: 'Refit the radiator',
    book: 110,
    more: {
      holds: [
        { kind: 'earlier-work-order', detail: 'after 2502, coolant leak' },
        { kind: 'bay', detail: 'bay 3 is taken until 15:45' },
      ],
    },
  },
];

export const demoTickets = (): Ticket[] => sketches.map(ticket);
