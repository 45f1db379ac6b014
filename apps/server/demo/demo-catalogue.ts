import type { CautionId } from '#libs/cautions';

/**
 * The demonstration shop's own catalogue. All of it is invented: hours, names and codes come from no time guide.
 * `at` says where a step is done when the operation is chosen for a position (see libs/estimate).
 */
export interface DemoStep {
  readonly code: string;
  readonly name: string;
  readonly hundredths: number;
}

export interface DemoOperation {
  readonly code: string;
  readonly name: string;
  readonly needsLift: boolean;
  readonly bayKinds: readonly ('lift' | 'flat' | 'alignment')[];
  readonly skills: readonly string[];
  readonly cautions: readonly CautionId[];
  readonly tools: readonly string[];
  readonly steps: readonly { readonly code: string; readonly at: 'chosen' | 'corner' | 'axle' | 'vehicle' }[];
}

const step = (code: string, name: string, hundredths: number): DemoStep => ({ code, name, hundredths });

export const DEMO_STEPS: readonly DemoStep[] = [
  step('ON-LIFT', 'Set the car on the lift and check the pads', 15),
  step('WHEEL', 'Wheel off and on, torqued', 15),
  step('CALIPER', 'Caliper and carrier off and on', 25),
  step('PADS', 'Pads fitted, slides cleaned and greased', 15),
  step('DISC', 'Disc fitted, hub face cleaned, runout checked', 20),
  step('HOSE', 'Flexible brake hose replaced', 25),
  step('BLEED', 'Brakes bled and pedal checked', 50),
  step('PIPES', 'Rear brake pipes made up and fitted', 140),
  step('FLUID', 'Brake fluid changed', 20),
  step('JOINT-SPLIT', 'Lower joint split and hub swung out', 40),
  step('BALL-JOINT', 'Lower ball joint pressed out and in', 55),
  step('ARM-OFF', 'Control arm off and on', 60),
  step('BUSHES', 'Control arm bushes pressed out and in', 45),
  step('SHAFT-OUT', 'Drive shaft out and in', 50),
  step('BOOT', 'Outer boot and clamps fitted, joint packed', 35),
  step('TRACK-ROD', 'Track rod end replaced, thread measured', 35),
  step('TRAY', 'Undertray off and on', 25),
  step('BELT', 'Auxiliary belt fitted, pulleys turned by hand', 45),
  step('SUPPORT', 'Engine supported from below', 30),
  step('MOUNT', 'Right engine mount replaced', 65),
  step('EXHAUST-REAR', 'Rear silencer and clamp replaced', 70),
  step('BATTERY', 'Battery replaced, memory kept, terminals cleaned', 30),
  step('SHOCK', 'Shock absorber replaced', 45),
  step('WIPERS', 'Wiper blades replaced', 10),
  step('TYRE', 'Tyre fitted and balanced', 30),
  step('ALIGN', 'Front wheels measured and set', 80),
  step('AIRCON', 'Refrigerant recovered, circuit evacuated and filled', 110),
  step('ROAD-TEST', 'Road test and hand-over check', 30),
];

type Steps = DemoOperation['steps'];
const on = (at: 'chosen' | 'corner' | 'axle' | 'vehicle', ...codes: string[]): Steps =>
  codes.map((code) => ({ code, at }));

function operation(
  code: string,
  name: string,
  steps: Steps,
  more: Partial<Omit<DemoOperation, 'code' | 'name' | 'steps'>> = {},
): DemoOperation {
  const base = { needsLift: true, bayKinds: ['lift'] as const, skills: ['general'], cautions: [], tools: [] };
  return { ...base, ...more, code, name, steps };
}

const BRAKES = { skills: ['brakes'], cautions: ['ASB-01', 'WHEEL-01'] } satisfies Partial<DemoOperation>;
const STEERING = { skills: ['suspension'], cautions: ['WHEEL-01'] } satisfies Partial<DemoOperation>;

export const DEMO_OPERATIONS: readonly DemoOperation[] = [
  operation(
    'FRONT-PADS',
    'Front brake pads',
    [...on('vehicle', 'ON-LIFT'), ...on('corner', 'WHEEL', 'CALIPER', 'PADS')],
    BRAKES,
  ),
  operation(
    'FRONT-DISCS',
    'Front brake discs',
    [...on('vehicle', 'ON-LIFT'), ...on('corner', 'WHEEL', 'CALIPER', 'DISC')],
    BRAKES,
  ),
  operation(
    'BRAKE-HOSE',
    'Flexible brake hose',
    [...on('vehicle', 'ON-LIFT', 'BLEED'), ...on('corner', 'WHEEL', 'HOSE')],
    BRAKES,
  ),
  operation('BRAKE-PIPES', 'Rear brake pipes', on('vehicle', 'ON-LIFT', 'PIPES', 'BLEED'), {
    ...BRAKES,
    tools: ['Brake pipe flaring kit'],
  }),
  operation('BRAKE-FLUID', 'Brake fluid change', on('vehicle', 'ON-LIFT', 'FLUID', 'BLEED'), BRAKES),
  operation(
    'BALL-JOINT',
    'Lower ball joint',
    [...on('vehicle', 'ON-LIFT'), ...on('corner', 'WHEEL', 'JOINT-SPLIT', 'BALL-JOINT')],
    { ...STEERING, tools: ['Ball joint press'] },
  ),
  operation(
    'ARM-BUSHES',
    'Control arm bushes',
    [...on('vehicle', 'ON-LIFT'), ...on('corner', 'WHEEL', 'JOINT-SPLIT', 'ARM-OFF', 'BUSHES')],
    { ...STEERING, tools: ['Bush press set'] },
  ),
  operation(
    'SHAFT-BOOT',
    'Outer drive shaft boot',
    [...on('vehicle', 'ON-LIFT'), ...on('corner', 'WHEEL', 'JOINT-SPLIT', 'SHAFT-OUT', 'BOOT')],
    STEERING,
  ),
  operation(
    'TRACK-ROD',
    'Track rod end',
    [...on('vehicle', 'ON-LIFT'), ...on('corner', 'WHEEL', 'TRACK-ROD')],
    STEERING,
  ),
  operation('AUX-BELT', 'Auxiliary belt', on('vehicle', 'ON-LIFT', 'TRAY', 'BELT')),
  operation('ENGINE-MOUNT', 'Right engine mount', on('vehicle', 'ON-LIFT', 'TRAY', 'SUPPORT', 'MOUNT'), {
    cautions: ['LIFT-07'],
  }),
  operation('EXHAUST-REAR', 'Rear silencer', on('vehicle', 'ON-LIFT', 'EXHAUST-REAR')),
  operation(
    'REAR-SHOCKS',
    'Rear shock absorbers',
    [...on('vehicle', 'ON-LIFT'), ...on('corner', 'WHEEL', 'SHOCK')],
    {
      ...STEERING,
      cautions: ['WHEEL-01', 'SPRING-01'],
    },
  ),
  operation('BATTERY', 'Battery', on('vehicle', 'BATTERY'), { needsLift: false, bayKinds: ['lift', 'flat'] }),
  operation('WIPERS', 'Wiper blades', on('vehicle', 'WIPERS'), {
    needsLift: false,
    bayKinds: ['lift', 'flat'],
  }),
  operation('TYRES', 'Tyres', [...on('vehicle', 'ON-LIFT'), ...on('corner', 'WHEEL', 'TYRE')], {
    cautions: ['WHEEL-01'],
  }),
  operation('ALIGNMENT', 'Front wheel alignment', on('vehicle', 'ALIGN'), {
    bayKinds: ['alignment'],
    skills: ['suspension'],
    tools: ['Alignment heads'],
  }),
  operation('AIRCON', 'Air-conditioning service', on('vehicle', 'AIRCON'), {
    needsLift: false,
    bayKinds: ['lift', 'flat'],
    skills: ['609'],
    cautions: ['AC-01'],
  }),
  operation('ROAD-TEST', 'Road test', on('vehicle', 'ROAD-TEST'), {
    needsLift: false,
    bayKinds: ['lift', 'flat'],
  }),
];

export const DEMO_TOOLS: readonly { readonly name: string; readonly units: number }[] = [
  { name: 'Ball joint press', units: 1 },
  { name: 'Bush press set', units: 1 },
  { name: 'Brake pipe flaring kit', units: 2 },
  { name: 'Alignment heads', units: 2 },
];
