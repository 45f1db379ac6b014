import { BRAKE_FLUID, part } from './demo-items.js';
import type { DemoStay } from './demo-stay.js';

const FRONT = ['front-left', 'front-right'] as const;
const REAR = ['rear-left', 'rear-right'] as const;

/** Cars that are being worked on or were this morning. */
export const DEMO_STAYS_IN_THE_BAYS: readonly DemoStay[] = [
  {
    customer: { displayName: 'Rosalind Ferrick', phone: '+1 202-555-0118' },
    vehicle: {
      make: 'Halbern',
      model: 'Grieve',
      modelYear: 2011,
      colour: 'slate',
      plate: 'HBT 4172',
      weightKg: 1390,
      heightMm: 1480,
    },
    odometerKm: 171_940,
    concern: 'Bounces over every drain cover.',
    droppedOff: 1240,
    promisedInHours: 5,
    offer: {
      sent: 1120,
      answered: 255,
      lines: [
        {
          title: 'Rear shock absorbers',
          found: {
            title: 'Rear shock absorbers leak',
            mayDrive: 'yes',
            explanation: 'Oil down both bodies; the car swings on after one push.',
            consequence: 'Longer stops on rough roads.',
          },
          operation: { code: 'REAR-SHOCKS', positions: REAR },
          items: [part('Shock absorber, rear', 'HB-3350', 2, 7480, 4110)],
          owner: 'approved',
          work: {
            place: { bay: 1, who: 'Bram', from: -240, minutes: 90 },
            on: { who: 'Bram', ago: 236 },
            finished: 161,
            checked: { who: 'Saffi', ago: 150 },
          },
        },
      ],
    },
  },
  {
    customer: { displayName: 'Teodor Anselm', phone: '+1 202-555-0131' },
    vehicle: {
      make: 'Lumora',
      model: 'Perrin',
      modelYear: 2008,
      colour: 'wine red',
      plate: 'LMR 80P',
      weightKg: 1520,
      heightMm: 1510,
    },
    odometerKm: 203_310,
    concern: 'Grinding from the front, and the pedal feels soft since last week.',
    droppedOff: 225,
    promisedInHours: 6,
    offer: {
      sent: 120,
      answered: 75,
      lines: [
        {
          title: 'Front brake pads and discs',
          found: {
            title: 'Front brakes worn out',
            mayDrive: 'to-the-shop-only',
            explanation: 'The inner left pad is down to the backing and has cut into the disc.',
            consequence: 'Metal on metal; the discs and soon the calipers go with it.',
          },
          operation: { code: 'FRONT-DISCS', positions: FRONT },
          items: [
            part('Pad set, front', 'LM-4410', 1, 8200, 4300),
            part('Brake disc, vented', 'LM-4412', 2, 6980, 3870),
          ],
          owner: 'approved',
          work: {
            place: { bay: 1, who: 'Juno', from: -45, minutes: 105 },
            on: { who: 'Juno', ago: 41 },
          },
        },
        {
          title: 'Brake hose, front left',
          found: {
            title: 'Brake hose front left cracked to the cord',
            mayDrive: 'no',
            explanation: 'It bulges when the pedal is held.',
            consequence: 'It can burst, and the brakes on that circuit are gone.',
          },
          operation: { code: 'BRAKE-HOSE', positions: ['front-left'] },
          items: [part('Brake hose', 'LM-4431', 1, 3460, 1710), BRAKE_FLUID],
          owner: 'approved',
          work: {
            place: { bay: 1, who: 'Juno', from: 60, minutes: 75 },
            after: 'Front brake pads and discs',
          },
        },
      ],
    },
  },
  {
    customer: { displayName: 'Bakery van, Oswin & Daughters', phone: '+1 202-555-0147' },
    vehicle: {
      make: 'Tarrik',
      model: 'Kestin van',
      modelYear: 2010,
      colour: 'cream',
      plate: 'TRK 219',
      weightKg: 2380,
      heightMm: 2240,
    },
    odometerKm: 298_700,
    concern: 'Brake warning lamp is on, and there is a wet patch in front of the rear wheel.',
    droppedOff: 1330,
    promisedInHours: 2,
    offer: {
      sent: 1180,
      answered: 240,
      lines: [
        {
          title: 'Rear brake pipes',
          found: {
            title: 'Rear brake pipes rusted through',
            mayDrive: 'no',
            explanation: 'Fluid weeps above the rear axle; the rest of the run is deeply pitted.',
            consequence: 'The rear circuit fails under a hard stop.',
          },
          operation: { code: 'BRAKE-PIPES', positions: ['vehicle'] },
          items: [
            part('Copper-nickel pipe, metre', 'KY-PIPE-475', 6, 940, 410, { source: 'stock' }),
            BRAKE_FLUID,
          ],
          contingencies: [
            {
              what: 'A union nut seizes and the wheel cylinder comes off with it',
              chancePpm: 300_000,
              hundredths: 70,
              capCents: 16_000,
              items: [part('Wheel cylinder, rear', 'KY-CYL-22', 1, 3480, 1690, { source: 'stock' })],
              agreed: true,
            },
          ],
          owner: 'approved',
          work: {
            place: { bay: 2, who: 'Mattis', from: -195, minutes: 135 },
            on: { who: 'Mattis', ago: 188 },
          },
        },
        {
          title: 'Two rear tyres',
          operation: { code: 'TYRES', positions: REAR },
          items: [part('Van tyre, 195 wide', 'KY-TYR-195C', 2, 11_200, 7350, { source: 'stock' })],
          owner: 'approved',
          work: {
            place: { bay: 2, who: 'Mattis', from: { tomorrowAt: '08:30' }, minutes: 90 },
            after: 'Rear brake pipes',
          },
        },
      ],
    },
  },
  {
    customer: { displayName: 'Edda Kirstow', phone: '+1 202-555-0122' },
    vehicle: {
      make: 'Velmara',
      model: 'Quill',
      modelYear: 2013,
      colour: 'white',
      plate: 'VQL 613',
      weightKg: 1260,
      heightMm: 1465,
      drivetrain: 'hybrid',
    },
    odometerKm: 132_480,
    concern: 'The air conditioning only blows warm. Slow to start on cold mornings, too.',
    droppedOff: 260,
    promisedInHours: 4,
    offer: {
      sent: 210,
      answered: 165,
      lines: [
        {
          title: 'Air-conditioning service',
          operation: { code: 'AIRCON', positions: ['vehicle'] },
          items: [part('Receiver drier', 'VQ-7702', 1, 5650, 2980)],
          contingencies: [
            {
              what: 'The pressure switch breaks when the old drier comes off',
              chancePpm: 250_000,
              hundredths: 40,
              capCents: 13_500,
              items: [part('Pressure switch', 'VQ-7718', 1, 4120, 2260, { source: 'stock' })],
              agreed: true,
            },
          ],
          owner: 'approved',
          work: {
            place: { bay: 5, who: 'Saffi', from: -135, minutes: 165 },
            on: { who: 'Saffi', ago: 124 },
            paused: { ago: 71, reason: 'Vacuum has to hold before it is filled' },
          },
        },
        {
          title: 'Starter battery',
          operation: { code: 'BATTERY', positions: ['vehicle'] },
          items: [part('Battery, 45 Ah', 'KY-BAT-45', 1, 9900, 6120, { source: 'stock', coreCents: 1500 })],
          owner: 'approved',
        },
      ],
    },
  },
];
