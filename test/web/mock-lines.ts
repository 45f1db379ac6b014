import type { Contingency, Item, Line } from '../../apps/web/src/api/estimate-types.js';
import { id } from './mock-data.js';
import { DRAFT } from './mock-ids.js';

/** A line of the mock: hours of its own, hours that it shares, and what is sold with it. */
export interface MockLine {
  readonly id: string;
  title: string;
  readonly word: 'Watch' | 'Repair' | 'Unsafe' | null;
  readonly explanation: string | null;
  readonly consequence: string | null;
  /** Hundredths of an hour of its own. */
  readonly own: number;
  /** Hundredths of the dismantling that all lines with some of it share: the front suspension. */
  readonly shared: number;
  readonly items: Item[];
  readonly operations: Line['operations'];
  readonly benefit: number;
  readonly why: string;
  readonly requires?: string[];
  readonly discount?: Line['discount'];
  readonly noCharge?: Line['noCharge'];
  contingencies?: Contingency[];
}

const item = (n: number, name: string, cents: number, quantity = 100): Item => ({
  id: id(2, 500 + n),
  kind: 'part',
  name,
  partNumber: `OD-${4100 + n}`,
  condition: 'new',
  source: 'supplier',
  quantityHundredths: quantity,
  unitPriceCents: cents,
  unitCostCents: Math.round(cents * 0.62),
  priceRule: 'entered',
  listCents: null,
  marginPpm: null,
  priceBreakdown: {},
  coreCents: 0,
  expectedAt: null,
});
export const contingency = (n: number, lineId: string, more: Partial<Contingency>): Contingency => ({
  id: id(4, n),
  lineId,
  revisionId: DRAFT,
  version: 4,
  sequence: 1,
  what: '',
  chancePpm: 0,
  hundredths: 0,
  items: [],
  capCents: 0,
  priceCents: 5000,
  state: 'proposed',
  chargedCents: null,
  trigger: null,
  ...more,
});
const extraPart = (n: number, name: string): Contingency['items'][number] => ({
  id: id(2, 600 + n),
  kind: 'part',
  name,
  partNumber: null,
  condition: 'new',
  source: 'stock',
  quantityHundredths: 100,
  unitPriceCents: 900,
  unitCostCents: null,
  coreCents: 0,
});
const operation = (n: number, name: string, ...positions: string[]): Line['operations'][number] => ({
  operationId: id(3, 700 + n),
  name,
  positions,
});

export const LINES: readonly MockLine[] = [
  {
    id: id(3, 1),
    title: 'Front lower ball joint, left',
    word: 'Unsafe',
    explanation: 'It moves 4 mm by hand; the limit is none.',
    consequence: 'If it parts, the wheel folds under and the car cannot be steered.',
    own: 90,
    shared: 120,
    items: [item(1, 'Ball joint, lower left', 6840)],
    operations: [operation(1, 'Lower ball joint', 'front-left')],
    benefit: 1500,
    why: 'Unsafe: the car must not be driven with it, and somebody may be hurt',
    contingencies: [
      contingency(1, id(3, 1), {
        what: 'The clamp bolt shears',
        chancePpm: 250_000,
        hundredths: 80,
        items: [extraPart(1, 'clamp bolt and nut')],
        capCents: 14_000,
        priceCents: 11_280,
      }),
    ],
  },
  {
    id: id(3, 2),
    title: 'Both front brake hoses',
    word: 'Unsafe',
    explanation: 'Cracked through to the fabric, and one weeps.',
    consequence: 'A hose that bursts takes half of the brakes with it.',
    own: 110,
    shared: 0,
    items: [item(2, 'Brake hose, front', 3120, 200), item(3, 'Brake fluid, 1 l', 1450)],
    operations: [operation(2, 'Brake hose and bleed', 'front-left', 'front-right')],
    benefit: 1500,
    why: 'Unsafe: the car must not be driven with it, and somebody may be hurt',
    contingencies: [
      contingency(2, id(3, 2), {
        what: 'The line nut seizes and the pipe has to be made',
        chancePpm: 350_000,
        hundredths: 130,
        items: [extraPart(2, 'copper-nickel pipe')],
        capCents: 19_000,
        priceCents: 17_640,
        state: 'agreed',
      }),
    ],
  },
  {
    id: id(3, 3),
    title: 'Front control arm bushes, both sides',
    word: 'Repair',
    explanation: 'Split all the way round; the arm knocks.',
    consequence: 'The knock stays, and the new tyres wear on their inner edge.',
    own: 160,
    shared: 120,
    items: [item(4, 'Control arm bush', 2870, 400)],
    operations: [operation(3, 'Control arm bushes', 'front-left', 'front-right')],
    benefit: 230,
    why: 'Worn out, and it becomes dearer if it waits',
  },
  {
    id: id(3, 4),
    title: 'Front pads and discs',
    word: 'Repair',
    explanation: '2.0 mm of pad is left; discs are below their mark.',
    consequence: 'Metal on metal within some 2,000 km.',
    own: 140,
    shared: 0,
    items: [item(5, 'Brake disc, front', 5490, 200), item(6, 'Pad set, front', 4780)],
    operations: [operation(4, 'Front pads and discs', 'front')],
    benefit: 550,
    why: 'Drive to the shop only, and it becomes dearer if it waits',
    discount: {
      labourPpm: null,
      itemsPpm: 50_000,
      itemsCents: null,
      reason: 'ordered together with the hoses',
    },
  },
  {
    id: id(3, 5),
    title: 'Wheel alignment',
    word: null,
    explanation: 'After work on the front suspension.',
    consequence: null,
    own: 80,
    shared: 0,
    items: [],
    operations: [operation(5, 'Four-wheel alignment', 'vehicle')],
    benefit: 100,
    why: 'You asked for this, or it is upkeep',
    requires: [id(3, 3)],
  },
  {
    id: id(3, 6),
    title: 'Rear silencer',
    word: 'Repair',
    explanation: 'Rusted through at the seam.',
    consequence: 'It gets louder until it falls off.',
    own: 70,
    shared: 0,
    items: [item(7, 'Rear silencer', 14_600), item(8, 'Clamp and rubbers', 1820)],
    operations: [operation(6, 'Rear silencer', 'underbody')],
    benefit: 170,
    why: 'Worn out; it bothers and no more',
  },
  {
    id: id(3, 7),
    title: 'Heater matrix hose, weeping',
    word: 'Watch',
    explanation: 'Damp at the joint, no drops yet.',
    consequence: 'Look again at the next oil change.',
    own: 60,
    shared: 0,
    items: [item(9, 'Heater hose', 2340)],
    operations: [operation(7, 'Heater hose', 'engine')],
    benefit: 60,
    why: 'Could be left and looked at again',
    noCharge: 'goodwill',
  },
];
