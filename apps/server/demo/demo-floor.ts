/** Bays, people and hours of the demonstration shop; all invented. */
export const DEMO_SHOP = {
  slug: 'kestrel-yard',
  name: 'Kestrel Yard Motors',
  phone: '+1 202-555-0142',
  address: '14 Tannery Row, Eastmere',
  timeZone: 'America/New_York',
  currency: 'USD',
} as const;

export const DEMO_BAYS = [
  { number: 1, name: 'By the door', kind: 'lift', liftKind: 'two-post', capacityKg: 3200 },
  { number: 2, name: 'Window side', kind: 'lift', liftKind: 'two-post', capacityKg: 3500 },
  { number: 3, name: 'Back wall', kind: 'lift', liftKind: 'four-post', capacityKg: 4500 },
  { number: 4, name: 'Measuring bay', kind: 'alignment', liftKind: 'scissor', capacityKg: 3500 },
  { number: 5, name: 'Flat floor', kind: 'flat', liftKind: null, capacityKg: null },
] as const;

export interface DemoPerson {
  readonly email: string;
  readonly roles: readonly ('front-desk' | 'technician' | 'manager' | 'administrator')[];
  readonly pin?: string;
  readonly skills?: readonly {
    readonly skill: string;
    readonly certificate?: string;
    readonly validUntil?: string;
  }[];
}

export const DEMO_PEOPLE: readonly DemoPerson[] = [
  { email: 'wenna@kestrelyard.example', roles: ['front-desk'] },
  {
    email: 'bram@kestrelyard.example',
    roles: ['technician'],
    pin: '4827',
    skills: [{ skill: 'general' }, { skill: 'brakes' }, { skill: 'suspension' }],
  },
  {
    email: 'saffi@kestrelyard.example',
    roles: ['technician'],
    pin: '7391',
    skills: [
      { skill: 'general' },
      { skill: 'brakes' },
      { skill: 'suspension' },
      { skill: '609', certificate: 'KY-609-118', validUntil: '2031-12-31' },
    ],
  },
  { email: 'orla@kestrelyard.example', roles: ['manager'] },
  { email: 'tomas@kestrelyard.example', roles: ['administrator'] },
];

/** Two more technicians; they have no password and sign in at a tablet of the shop. */
export const DEMO_MATES: readonly (Omit<DemoPerson, 'email'> & { readonly name: string })[] = [
  {
    name: 'Juno Halvard',
    roles: ['technician'],
    pin: '6150',
    skills: [{ skill: 'general' }, { skill: 'brakes' }, { skill: 'suspension' }],
  },
  {
    name: 'Mattis Orvik',
    roles: ['technician'],
    pin: '2864',
    skills: [{ skill: 'general' }, { skill: 'brakes' }],
  },
];

const SHIFT = { fromMinute: 450, toMinute: 990, breakFromMinute: 720, breakToMinute: 750 } as const;
const DAY_MINUTES = 1440;

interface DemoShift {
  readonly weekday: number;
  readonly fromMinute: number;
  readonly toMinute: number;
  readonly breakFromMinute: number;
  readonly breakToMinute: number;
}

/**
 * Monday to Friday 07:30 to 16:30 with half an hour at noon. The day on which the demonstration is made and the next one
 * are worked whatever day that is, and long enough for what is on the floor then; else the plan would, rightly, send
 * everybody home and call every promise broken. `now` by the shop's clock: weekday 1 (Monday) to 7, minute of the day.
 */
export function demoShifts(now: { readonly weekday: number; readonly minute: number }): readonly DemoShift[] {
  const worked = [...new Set([1, 2, 3, 4, 5, now.weekday, (now.weekday % 7) + 1])].sort((a, b) => a - b);
  return worked.map((weekday) => (weekday === now.weekday ? stretched(now) : { weekday, ...SHIFT }));
}

/** From before the first work of the scene began until some hours after its last. */
function stretched({ weekday, minute }: { readonly weekday: number; readonly minute: number }): DemoShift {
  const first = Math.floor(minute / 30) * 30 - 5 * 60;
  const last = Math.ceil(minute / 30) * 30 + 6 * 60;
  return {
    weekday,
    ...SHIFT,
    fromMinute: Math.max(0, Math.min(SHIFT.fromMinute, first)),
    toMinute: Math.min(DAY_MINUTES, Math.max(SHIFT.toMinute, last)),
  };
}
