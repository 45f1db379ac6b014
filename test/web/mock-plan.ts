import type {
  LatePromise,
  Plan,
  PlanChange,
  PlannedWork,
  PlanRun,
  PlanSettings,
  PlanWait,
  RunPlace,
} from '../../apps/web/src/api/plan-types.js';
import { DAY, NOW, ZONE, accounts, at, id } from './mock-data.js';

/** The plan of the invented shop, as its page reads it. */
export interface MockPlan {
  plan: Plan;
  readonly runs: PlanRun[];
  settings: PlanSettings;
  readonly leftOut: Set<string>;
}

const bays = ['Front left', 'Front right', 'Middle', 'Long bay', 'Alignment'];
const bayOf = (n: number) => ({ bayId: id(2, n), bayName: bays[n - 1] ?? '' });
const technicianOf = (n: number) => ({
  technicianId: id(1, n),
  technicianName: accounts.find((one) => one.id === id(1, n))?.displayName ?? '',
});
export const runId = (n: number): string => id(7, n);
/** A time of the day after the test day. */
const tomorrow = (time: string): string => new Date(Date.parse(at(time)) + 86_400_000).toISOString();

const wait = (
  kind: PlanWait['for'],
  until: string,
  words: string,
  remedy: string,
  isOnly = false,
): PlanWait => ({
  ...{ for: kind, until, words, remedy, isOnly },
});

interface Sketch {
  readonly n: number;
  readonly car: string;
  readonly plate: string | null;
  readonly job: string;
  readonly bay: number;
  readonly technician: number;
  readonly from: string;
  readonly to: string;
  readonly waits: PlanWait[];
  readonly more?: Partial<PlannedWork>;
}

const planned = ({ n, car, plate, job, bay, technician, from, to, waits, more }: Sketch): PlannedWork => ({
  ...{ workOrderId: id(3, n), number: n, title: job, repairOrderId: id(4, n) },
  vehicle: { label: car, plate },
  ...{ assignmentId: id(5, n), version: 1 },
  ...bayOf(bay),
  ...technicianOf(technician),
  tools: [],
  ...{ startsAt: from, endsAt: to, bayUntil: null, expectedEndsAt: to },
  ...{ isOnTheClock: false, isPinned: false, madeBy: 'plan', waits },
  ...more,
});

const work: readonly Sketch[] = [
  {
    ...{
      n: 2481,
      car: 'Corvane Talis',
      plate: 'RTN 118',
      job: 'Front pads and discs',
      bay: 1,
      technician: 11,
    },
    ...{ from: at('10:00'), to: at('11:36') },
    waits: [wait('started', at('10:00'), 'It was started.', 'Nothing: it is under way.')],
    more: { isOnTheClock: true, isPinned: true, madeBy: 'person' },
  },
  {
    ...{
      n: 2488,
      car: 'Tarrik Kestin',
      plate: null,
      job: 'Rear shock absorbers, pair',
      bay: 2,
      technician: 12,
    },
    ...{ from: at('11:15'), to: at('12:40') },
    waits: [
      wait(
        'bay',
        at('11:15'),
        'Work order 2476 · Lower arm · VQ 22 is in "Front right" until then.',
        'Another bay with a lift.',
      ),
      wait(
        'technician',
        at('11:00'),
        'Saffi Renqvist is at work order 2476 until then.',
        'Another technician who holds brakes.',
        true,
      ),
      wait('vehicle', at('10:50'), 'The vehicle comes then.', 'The vehicle brought sooner.'),
    ],
  },
  {
    ...{ n: 2490, car: 'Ostrel Dace', plate: 'KLV 40R', job: 'Rear wheel bearing', bay: 1, technician: 11 },
    ...{ from: at('12:30'), to: at('13:48') },
    waits: [wait('pin', at('12:30'), 'A person laid its time down.', 'Take the pin off.')],
    more: { isPinned: true, madeBy: 'person' },
  },
  {
    ...{ n: 2494, car: 'Corvane Umber', plate: 'CU 5', job: 'Handbrake cables', bay: 3, technician: 13 },
    ...{ from: tomorrow('08:00'), to: tomorrow('09:36') },
    waits: [
      wait('parts', tomorrow('08:00'), 'Its parts come then.', 'Parts that come sooner.', true),
      wait('shift', tomorrow('07:30'), 'Nobody who can do it works before.', 'A shift that begins sooner.'),
    ],
    more: { tools: [{ toolId: id(8, 1), name: 'Cable puller', unit: 1 }] },
  },
];

const late: LatePromise[] = [
  {
    ...{ repairOrderId: id(4, 2494), number: 1114, vehicle: { label: 'Corvane Umber', plate: 'CU 5' } },
    ...{ promisedAt: at('16:30'), readyAt: tomorrow('09:36'), minutesLate: 1026 },
    steps: [
      {
        ...{ workOrderId: id(3, 2494), workOrder: 'Work order 2494 · Handbrake cables · CU 5' },
        ...{ words: 'Its parts come then.', remedy: 'Parts that come sooner.', until: tomorrow('08:00') },
      },
    ],
  },
  {
    ...{ repairOrderId: id(4, 2488), number: 1108, vehicle: { label: 'Tarrik Kestin', plate: null } },
    ...{ promisedAt: at('11:45'), readyAt: at('12:40'), minutesLate: 55 },
    steps: [
      {
        ...{
          workOrderId: id(3, 2488),
          workOrder: 'Work order 2488 · Rear shock absorbers, pair · Tarrik Kestin',
        },
        words: 'Work order 2476 · Lower arm · VQ 22 is in "Front right" until then.',
        ...{ remedy: 'Another bay with a lift.', until: at('11:15') },
      },
      {
        ...{ workOrderId: id(3, 2476), workOrder: 'Work order 2476 · Lower arm · VQ 22' },
        ...{ words: 'It was started.', remedy: null, until: null },
      },
    ],
  },
];

const place = (from: string, to: string, bay: number, technician: number): RunPlace => ({
  ...{ startsAt: from, endsAt: to },
  ...bayOf(bay),
  ...technicianOf(technician),
});

const change = (n: number, more: Partial<PlanChange>): PlanChange => {
  const of = work.find((one) => one.n === n);
  return {
    ...{
      kind: 'changed',
      workOrderId: id(3, n),
      workOrderNumber: n,
      title: of?.job ?? 'Air-conditioning service',
    },
    ...{ repairOrderId: id(4, n), repairOrderNumber: 1100 + (n % 40) },
    ...{ vehicleLabel: of?.car ?? 'Velmara Quill', plate: of?.plate ?? 'VQ 22' },
    ...{ was: null, is: null, minutesLater: 0, technicianChanged: false, bayChanged: false, why: '' },
    ...more,
  };
};

/** A proposal that mends the second broken promise. */
export function proposalOf(n: number): PlanRun {
  return {
    ...{ id: runId(n), improve: false, askedAt: at('10:40'), askedBy: null, endedAt: at('10:41') },
    causes: [
      { kind: 'clock', words: 'Work order 2476 takes longer than expected.', at: at('10:40'), subjects: {} },
    ],
    ...{
      outcome: 'proposed',
      detail: null,
      changeCount: 3,
      decision: null,
      decidedAt: null,
      decidedBy: null,
    },
    promises: {
      broken: [],
      kept: [
        {
          ...{ repairOrderId: id(4, 2488), repairOrderNumber: 1108, vehicleLabel: 'Tarrik Kestin' },
          ...{ promisedAt: at('11:45'), readyAt: at('11:40'), minutesLate: 0 },
        },
      ],
    },
    changes: [
      change(2488, {
        was: place(at('11:15'), at('12:40'), 2, 12),
        is: place(at('10:45'), at('12:10'), 3, 14),
        ...{ minutesLater: -30, bayChanged: true, technicianChanged: true },
        why: 'Its bay is taken longer, and its promise would not hold.',
      }),
      change(2494, {
        was: place(tomorrow('08:00'), tomorrow('09:36'), 3, 13),
        is: place(tomorrow('08:30'), tomorrow('10:06'), 3, 13),
        ...{ minutesLater: 30, why: 'It makes room for work order 2488.' },
      }),
      change(2501, {
        kind: 'new',
        is: place(tomorrow('10:15'), tomorrow('11:00'), 4, 14),
        why: 'It was released and had no place yet.',
      }),
    ],
    costBefore: { unplaced: 1, frozenMoved: 0, lateness: 1081, change: 0, blocked: 0 },
    cost: { unplaced: 0, frozenMoved: 0, lateness: 1056, change: 130, blocked: 0 },
    ...{ latenessBound: 1026, solveMs: 48 },
  };
}

const accepted: PlanRun = {
  ...proposalOf(1),
  ...{ askedAt: at('09:12'), endedAt: at('09:12'), decision: 'accepted', decidedAt: at('09:15') },
  decidedBy: { id: id(1, 1), displayName: 'Nell Farrow' },
  causes: [{ kind: 'part', words: 'A part of work order 2494 comes later.', at: at('09:11'), subjects: {} }],
};
const unchanged: PlanRun = {
  ...proposalOf(2),
  ...{ askedAt: at('10:01'), endedAt: at('10:01'), outcome: 'unchanged', changeCount: 0, changes: [] },
  promises: { broken: [], kept: [] },
  causes: [
    { kind: 'clock', words: 'Bram Tollan clocked on to work order 2481.', at: at('10:00'), subjects: {} },
  ],
};

/** A fresh plan for each test: two broken promises and a proposal that waits. */
export function demoPlan(): MockPlan {
  return {
    plan: {
      ...{ timeZone: ZONE, now: NOW, mode: 'propose' },
      planned: work.map(planned),
      late: structuredClone(late),
      notPlanned: [
        {
          ...{
            workOrderId: id(3, 2501),
            number: 2501,
            title: 'Air-conditioning service',
            repairOrderId: id(4, 2501),
          },
          why: 'It has no place yet.',
        },
        {
          ...{
            workOrderId: id(3, 2505),
            number: 2505,
            title: 'Rattle, rear left',
            repairOrderId: id(4, 2505),
          },
          why: 'The weight of the vehicle is not recorded. Read it from its plate before it goes on a lift.',
        },
      ],
      overdueParts: [
        {
          ...{ lineItemId: id(8, 1), kind: 'part', name: 'gasket set', since: at('08:30') },
          ...{ workOrderId: id(3, 2501), number: 2501, title: 'Air-conditioning service' },
          ...{ repairOrderId: id(4, 2501), vehicle: { label: 'Corvane Umber 2012', plate: 'KZ 41' } },
        },
      ],
      lastRun: { id: runId(3), at: at('10:41'), outcome: 'proposed' },
      openProposalId: runId(3),
      notes: [
        {
          ...{ about: 'technician', id: id(1, 14) },
          words: `Yuna Achter has no shifts after ${DAY} 17:00, so nothing is planned for her then.`,
        },
      ],
    },
    runs: [proposalOf(3), unchanged, accepted],
    settings: {
      ...{ mode: 'propose', frozenMinutes: 120, horizonDays: 21, version: 3 },
      weights: {
        ...{ lateness: 1, startMoved: 60, hourMoved: 10, technicianChanged: 30, bayChanged: 10 },
        nearMinutes: 2880,
      },
    },
    leftOut: new Set(),
  };
}
