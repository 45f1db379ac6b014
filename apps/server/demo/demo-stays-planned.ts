import { part } from './demo-items.js';
import type { DemoStay } from './demo-stay.js';

const FRONT = ['front-left', 'front-right'] as const;

/** Cars whose work is agreed to and not begun: it can start, is planned for later, or waits for something. */
export const DEMO_STAYS_PLANNED: readonly DemoStay[] = [
  {
    customer: { displayName: 'Jorun Pellmark', phone: '+1 202-555-0163' },
    vehicle: {
      make: 'Ostrel',
      model: 'Dace',
      modelYear: 2006,
      colour: 'pale blue',
      plate: 'OSD 5520',
      weightKg: 1345,
      heightMm: 1455,
    },
    odometerKm: 241_050,
    concern: 'Shakes at idle, squeals when it is wet.',
    droppedOff: 1290,
    promisedInHours: 28,
    offer: {
      sent: 1150,
      answered: 230,
      lines: [
        {
          title: 'Right engine mount',
          operation: { code: 'ENGINE-MOUNT', positions: ['vehicle'] },
          items: [part('Engine mount, right', 'OD-1203', 1, 11_890, 6640, { expectedTomorrowAt: '10:00' })],
          owner: 'approved',
          work: { place: { bay: 3, who: 'Juno', from: { tomorrowAt: '10:30' }, minutes: 90 } },
        },
        {
          title: 'Auxiliary belt',
          operation: { code: 'AUX-BELT', positions: ['vehicle'] },
          items: [part('Ribbed belt', 'OD-1184', 1, 3620, 1740)],
          owner: 'approved',
        },
      ],
    },
  },
  {
    customer: { displayName: 'Marguerite Osei-Lund', phone: '+1 202-555-0155' },
    vehicle: {
      make: 'Corvane',
      model: 'Talis',
      modelYear: 2012,
      colour: 'green',
      plate: 'RTN 118',
      weightKg: 1610,
      heightMm: 1560,
    },
    odometerKm: 156_200,
    concern: 'Loud at the back. Please look at the brakes before we drive to the coast.',
    droppedOff: 300,
    promisedInHours: 7,
    offer: {
      sent: 160,
      answered: 95,
      lines: [
        {
          title: 'Front brake pads',
          operation: { code: 'FRONT-PADS', positions: FRONT },
          items: [part('Pad set, front', 'CT-4410', 1, 7900, 4120)],
          owner: 'approved',
          work: { place: { bay: 3, who: 'Saffi', from: 60, minutes: 75 } },
        },
        {
          title: 'Front wheel alignment',
          operation: { code: 'ALIGNMENT', positions: ['vehicle'] },
          items: [],
          owner: 'approved',
          work: { place: { bay: 4, who: 'Bram', from: 150, minutes: 60 }, after: 'Front brake pads' },
        },
        {
          title: 'Rear silencer',
          operation: { code: 'EXHAUST-REAR', positions: ['vehicle'] },
          items: [part('Rear silencer', 'CT-6620', 1, 18_400, 9900)],
          owner: 'approved',
        },
        {
          title: 'Air-conditioning service',
          operation: { code: 'AIRCON', positions: ['vehicle'] },
          items: [],
          owner: 'deferred',
        },
      ],
    },
  },
  {
    customer: { displayName: 'Casimir Holloway', phone: '+1 202-555-0109' },
    vehicle: {
      make: 'Tarrik',
      model: 'Pell',
      modelYear: 2014,
      colour: 'orange',
      plate: 'TPL 77K',
      weightKg: 1480,
      heightMm: 1620,
    },
    odometerKm: 118_900,
    concern: 'Steering wheel sits crooked since I hit a kerb.',
    droppedOff: 1210,
    promisedInHours: 30,
    offer: {
      sent: 1090,
      answered: 205,
      lines: [
        {
          title: 'Track rod ends, both sides',
          operation: { code: 'TRACK-ROD', positions: FRONT },
          items: [part('Track rod end', 'TP-3140', 2, 4380, 2160)],
          owner: 'approved',
          work: {
            place: { bay: 1, who: 'Bram', from: { tomorrowAt: '08:00' }, minutes: 75, isPinned: true },
          },
        },
        {
          title: 'Front wheel alignment',
          operation: { code: 'ALIGNMENT', positions: ['vehicle'] },
          items: [],
          owner: 'approved',
          work: {
            place: { bay: 4, who: 'Bram', from: { tomorrowAt: '09:30' }, minutes: 60 },
            after: 'Track rod ends, both sides',
          },
        },
      ],
    },
  },
];
