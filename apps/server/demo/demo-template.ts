/** The walk over an older car, in the order in which a person moves around it: 38 checkpoints at 6 stations. */
export interface DemoCheckpoint {
  readonly component: string;
  readonly position: string;
  readonly readingName?: string;
  readonly readingUnit?: string;
  readonly limit?: { readonly comparator: 'min' | 'max'; readonly value: string; readonly source: string };
}

export interface DemoStation {
  readonly name: string;
  readonly checkpoints: readonly DemoCheckpoint[];
}

const look = (component: string, position: string): DemoCheckpoint => ({ component, position });

const tread = (position: string): DemoCheckpoint => ({
  ...look('Tyre tread', position),
  readingName: 'tread',
  readingUnit: 'mm',
  limit: { comparator: 'min', value: '1.6', source: 'UK and EU: 1.6 mm over the central three quarters' },
});

const pad = (component: string, position: string): DemoCheckpoint => ({
  ...look(component, position),
  readingName: 'lining left',
  readingUnit: 'mm',
  limit: {
    comparator: 'min',
    value: '1.5',
    source: 'UK annual test manual 1.1.13: below 1.5 mm is dangerous',
  },
});

export const DEMO_TEMPLATE_NAME = 'Older car, end to end';

export const DEMO_STATIONS: readonly DemoStation[] = [
  {
    name: 'Around the car',
    checkpoints: [
      look('Lamps', 'vehicle'),
      look('Wiper blades', 'front'),
      look('Windscreen', 'front'),
      tread('front-left'),
      tread('front-right'),
      tread('rear-left'),
      tread('rear-right'),
    ],
  },
  {
    name: 'Under the bonnet',
    checkpoints: [
      { ...look('Battery', 'engine'), readingName: 'rest voltage', readingUnit: 'V' },
      look('Coolant', 'engine'),
      { ...look('Brake fluid', 'engine'), readingName: 'water', readingUnit: '%' },
      look('Auxiliary belt', 'engine'),
      look('Oil leaks, top', 'engine'),
      look('Right engine mount', 'engine'),
    ],
  },
  {
    name: 'Lift at knee height, front wheels',
    checkpoints: [
      look('Wheel bearing', 'front-left'),
      look('Wheel bearing', 'front-right'),
      pad('Brake pads', 'front-left'),
      pad('Brake pads', 'front-right'),
      look('Brake disc', 'front-left'),
      look('Brake disc', 'front-right'),
      look('Brake hose', 'front-left'),
      look('Brake hose', 'front-right'),
    ],
  },
  {
    name: 'Lift high, front axle',
    checkpoints: [
      { ...look('Lower ball joint', 'front-left'), readingName: 'play', readingUnit: 'mm' },
      { ...look('Lower ball joint', 'front-right'), readingName: 'play', readingUnit: 'mm' },
      look('Track rod end', 'front-left'),
      look('Track rod end', 'front-right'),
      look('Control arm bushes', 'front-left'),
      look('Control arm bushes', 'front-right'),
      look('Drive shaft boot', 'front-left'),
      look('Anti-roll bar links', 'front'),
    ],
  },
  {
    name: 'Lift high, middle',
    checkpoints: [
      look('Exhaust, front pipe', 'underbody'),
      look('Rear silencer', 'underbody'),
      look('Brake pipes', 'underbody'),
      look('Fuel pipes', 'underbody'),
      look('Sills and lifting points', 'underbody'),
    ],
  },
  {
    name: 'Lift high, rear axle',
    checkpoints: [
      pad('Brake shoes', 'rear-left'),
      pad('Brake shoes', 'rear-right'),
      look('Shock absorbers', 'rear'),
      look('Wheel bearing', 'rear-left'),
    ],
  },
];

/** From ten years of age on: how often it needs work, in hundredths, and what that comes to in whole money. */
const rate = (component: string, chance: number, low: number, likely: number, high: number) => ({
  component,
  fromYears: 10,
  chancePpm: chance * 10_000,
  lowCents: low * 100,
  likelyCents: likely * 100,
  highCents: high * 100,
});

/** What is behind a checkpoint that could not be seen; invented like all amounts here. */
export const DEMO_BASE_RATES = [
  rate('Lower ball joint', 14, 160, 240, 420),
  rate('Control arm bushes', 18, 140, 210, 380),
  rate('Brake hose', 12, 80, 130, 260),
  rate('Brake pipes', 22, 120, 300, 900),
  rate('Fuel pipes', 9, 140, 320, 950),
  rate('Sills and lifting points', 16, 200, 600, 1800),
];
