/** The tour's invented car and what is wrong with it; operations and stations are the demonstration shop's. */
export interface Seen {
  readonly component: string;
  readonly position: string;
  readonly verdict: 'watch' | 'repair' | 'unseen';
  readonly mayDrive?: 'yes' | 'to-the-shop-only' | 'no';
  readonly reading?: { readonly value: string; readonly unit: string };
  readonly unseenReason?: string;
  readonly lookAgainInKm?: number;
  readonly note?: string;
  readonly consequence?: string;
}

export interface PlannedItem {
  readonly kind: 'part' | 'fluid' | 'sublet' | 'fee';
  readonly name: string;
  readonly partNumber?: string;
  readonly quantityHundredths: number;
  readonly unitPriceCents: number;
  readonly unitCostCents: number;
  readonly condition?: 'new' | 'used' | 'rebuilt';
  readonly source?: 'stock' | 'supplier' | 'used' | 'donor-vehicle';
  readonly coreCents?: number;
}

export interface PlannedLine {
  readonly title: string;
  readonly answers: readonly (readonly [component: string, position: string])[];
  readonly operations: readonly { readonly code: string; readonly positions: readonly string[] }[];
  readonly items: readonly PlannedItem[];
  readonly owner: 'approved' | 'declined' | 'deferred';
  /** Titles of lines that must be finished before. */
  readonly after?: readonly string[];
}

export const CAR = {
  make: 'Halbern',
  model: 'Otterley estate',
  modelYear: 2004,
  colour: 'moss green',
  drivetrain: 'combustion',
  weightKg: 1540,
  heightMm: 1490,
  valueCents: 240_000,
} as const;

export const CONCERN = 'Knocks over speed bumps, pulls to the left when braking. Is it worth keeping?';

const repair = (
  component: string,
  position: string,
  mayDrive: 'yes' | 'to-the-shop-only' | 'no',
  note: string,
  consequence: string,
  reading?: readonly [string, string],
): Seen => ({
  component,
  position,
  verdict: 'repair',
  mayDrive,
  note,
  consequence,
  ...(reading ? { reading: { value: reading[0], unit: reading[1] } } : {}),
});

export const SEEN: readonly Seen[] = [
  {
    component: 'Tyre tread',
    position: 'front-left',
    verdict: 'watch',
    mayDrive: 'yes',
    reading: { value: '3.1', unit: 'mm' },
    lookAgainInKm: 8000,
    note: 'Inner edge lower than the rest.',
  },
  repair('Wiper blades', 'front', 'yes', 'Streaks in the middle of the view.', 'Poor view in rain.'),
  repair(
    'Battery',
    'engine',
    'yes',
    'Falls below 10 V while cranking.',
    'The car will not start on a cold morning.',
    ['12.1', 'V'],
  ),
  repair(
    'Brake fluid',
    'engine',
    'yes',
    'Dark, and above the shop’s limit for water.',
    'It boils earlier on a long descent.',
    ['3.4', '%'],
  ),
  repair(
    'Auxiliary belt',
    'engine',
    'yes',
    'Cracked across the ribs.',
    'If it breaks, charging and power steering stop.',
  ),
  repair(
    'Right engine mount',
    'engine',
    'yes',
    'Rubber torn through on one side.',
    'The knock grows and strains the exhaust.',
  ),
  repair(
    'Brake pads',
    'front-left',
    'to-the-shop-only',
    'Inner pad nearly gone.',
    'Metal on metal within a few hundred kilometres.',
    ['1.4', 'mm'],
  ),
  repair('Brake pads', 'front-right', 'yes', 'Worn evenly.', 'Same axle: replaced together.', ['2.6', 'mm']),
  repair('Brake disc', 'front-left', 'yes', 'Scored, with a lip.', 'New pads would not bed in.'),
  repair('Brake disc', 'front-right', 'yes', 'Lip and rust on the inner face.', 'New pads would not bed in.'),
  repair(
    'Brake hose',
    'front-left',
    'no',
    'Cracked to the cord, bulges when the pedal is held.',
    'It can burst, and the brakes on that circuit are gone.',
  ),
  repair(
    'Lower ball joint',
    'front-left',
    'no',
    'Moves by hand.',
    'If it parts, the wheel folds under the car.',
    ['4.0', 'mm'],
  ),
  repair('Control arm bushes', 'front-left', 'yes', 'Rear bush torn.', 'The car wanders and eats tyres.'),
  repair('Control arm bushes', 'front-right', 'yes', 'Rear bush cracked.', 'The car wanders and eats tyres.'),
  repair(
    'Drive shaft boot',
    'front-left',
    'yes',
    'Split, grease thrown out.',
    'The joint wears out within months.',
  ),
  repair(
    'Rear silencer',
    'underbody',
    'yes',
    'Rusted through at the seam.',
    'Loud; it fails the yearly test.',
  ),
  repair(
    'Brake pipes',
    'underbody',
    'to-the-shop-only',
    'Deep rust above the rear axle.',
    'A pipe can burst under a hard stop.',
  ),
  {
    component: 'Shock absorbers',
    position: 'rear',
    verdict: 'watch',
    mayDrive: 'yes',
    lookAgainInKm: 10_000,
    note: 'Sweating, still damp the spring.',
    consequence: 'Longer stops on rough roads when they get worse.',
  },
  {
    component: 'Sills and lifting points',
    position: 'underbody',
    verdict: 'unseen',
    unseenReason: 'Covered by riveted trim; looked at only where it lifts.',
  },
];

const part = (
  name: string,
  partNumber: string,
  count: number,
  unitPriceCents: number,
  unitCostCents: number,
  more: Partial<PlannedItem> = {},
): PlannedItem => ({
  kind: 'part',
  name,
  partNumber,
  quantityHundredths: count * 100,
  unitPriceCents,
  unitCostCents,
  condition: 'new',
  source: 'supplier',
  ...more,
});

const FLUID: PlannedItem = {
  kind: 'fluid',
  name: 'Brake fluid, litre',
  quantityHundredths: 100,
  unitPriceCents: 1890,
  unitCostCents: 920,
};

const BOTH = ['front-left', 'front-right'] as const;

/** Measured last, when every joint of the steering is done. */
export const ALIGNMENT = 'Front wheel alignment';

export const LINES: readonly PlannedLine[] = [
  {
    title: 'Front brake pads and discs',
    answers: [
      ['Brake pads', 'front-left'],
      ['Brake pads', 'front-right'],
      ['Brake disc', 'front-left'],
      ['Brake disc', 'front-right'],
    ],
    operations: [
      { code: 'FRONT-PADS', positions: BOTH },
      { code: 'FRONT-DISCS', positions: BOTH },
    ],
    items: [
      part('Pad set, front', 'OT-4410', 1, 8800, 4650),
      part('Brake disc, vented', 'OT-4412', 2, 7240, 4020),
    ],
    owner: 'approved',
  },
  {
    title: 'Brake hose, front left',
    answers: [['Brake hose', 'front-left']],
    operations: [{ code: 'BRAKE-HOSE', positions: ['front-left'] }],
    items: [part('Brake hose', 'OT-4431', 1, 3460, 1710), FLUID],
    owner: 'approved',
  },
  {
    title: 'Rear brake pipes',
    answers: [['Brake pipes', 'underbody']],
    operations: [{ code: 'BRAKE-PIPES', positions: ['vehicle'] }],
    items: [part('Copper-nickel pipe, metre', 'KY-PIPE-475', 5, 940, 410, { source: 'stock' })],
    owner: 'approved',
  },
  {
    title: 'Brake fluid',
    answers: [['Brake fluid', 'engine']],
    operations: [{ code: 'BRAKE-FLUID', positions: ['vehicle'] }],
    items: [FLUID],
    owner: 'approved',
  },
  {
    title: 'Lower ball joint, front left',
    answers: [['Lower ball joint', 'front-left']],
    operations: [{ code: 'BALL-JOINT', positions: ['front-left'] }],
    items: [part('Lower ball joint', 'OT-3107', 1, 6260, 3180)],
    owner: 'approved',
  },
  {
    title: 'Control arm bushes, both sides',
    answers: [
      ['Control arm bushes', 'front-left'],
      ['Control arm bushes', 'front-right'],
    ],
    operations: [{ code: 'ARM-BUSHES', positions: BOTH }],
    items: [part('Bush kit, control arm', 'OT-3122', 2, 3950, 1980)],
    owner: 'approved',
  },
  {
    title: 'Drive shaft boot, front left',
    answers: [['Drive shaft boot', 'front-left']],
    operations: [{ code: 'SHAFT-BOOT', positions: ['front-left'] }],
    items: [part('Boot kit, outer', 'OT-2718', 1, 4180, 2050)],
    owner: 'approved',
  },
  {
    title: 'Auxiliary belt',
    answers: [['Auxiliary belt', 'engine']],
    operations: [{ code: 'AUX-BELT', positions: ['vehicle'] }],
    items: [part('Ribbed belt', 'OT-1184', 1, 3620, 1740)],
    owner: 'approved',
  },
  {
    title: 'Right engine mount',
    answers: [['Right engine mount', 'engine']],
    operations: [{ code: 'ENGINE-MOUNT', positions: ['vehicle'] }],
    items: [part('Engine mount, right', 'OT-1203', 1, 11_890, 6640)],
    owner: 'approved',
  },
  {
    title: 'Rear silencer',
    answers: [['Rear silencer', 'underbody']],
    operations: [{ code: 'EXHAUST-REAR', positions: ['vehicle'] }],
    items: [part('Rear silencer', 'OT-6620', 1, 18_400, 9900)],
    owner: 'declined',
  },
  {
    title: 'Rear shock absorbers',
    answers: [['Shock absorbers', 'rear']],
    operations: [{ code: 'REAR-SHOCKS', positions: ['rear-left', 'rear-right'] }],
    items: [part('Shock absorber, rear', 'OT-3350', 2, 7480, 4110)],
    owner: 'deferred',
  },
  {
    title: 'Battery',
    answers: [['Battery', 'engine']],
    operations: [{ code: 'BATTERY', positions: ['vehicle'] }],
    items: [part('Battery, 70 Ah', 'KY-BAT-70', 1, 12_900, 8150, { source: 'stock', coreCents: 1800 })],
    owner: 'approved',
  },
  {
    title: 'Wiper blades',
    answers: [['Wiper blades', 'front']],
    operations: [{ code: 'WIPERS', positions: ['vehicle'] }],
    items: [part('Wiper blade pair', 'KY-WIP-60', 1, 2640, 1190, { source: 'stock' })],
    owner: 'approved',
  },
  {
    title: ALIGNMENT,
    answers: [],
    operations: [{ code: 'ALIGNMENT', positions: ['vehicle'] }],
    items: [],
    owner: 'approved',
    after: ['Lower ball joint, front left', 'Control arm bushes, both sides'],
  },
];

/** What turns up with the lower joint split: a further revision with only this line. */
export const UNDER_WAY = {
  during: 'Lower ball joint, front left',
  title: 'Track rod end front left: thread seized and thinned by rust',
  explanation: 'Seen with the joint split: the thread would not turn and is thin where it rusted.',
  consequence: 'The toe cannot be set, and the thread can fail.',
  line: {
    title: 'Track rod end, front left',
    answers: [],
    operations: [{ code: 'TRACK-ROD', positions: ['front-left'] }],
    items: [part('Track rod end', 'OT-3140', 1, 4380, 2160)],
    owner: 'approved',
  } satisfies PlannedLine,
} as const;

export const LOOKED_AT = 38;
export const FINDINGS_AT_LEAST = 14;
