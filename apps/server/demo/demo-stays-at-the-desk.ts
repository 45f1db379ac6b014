import { BRAKE_FLUID, part } from './demo-items.js';
import type { DemoStay } from './demo-stay.js';

/** Cars that have no work on the floor yet: just in, being looked at, and waiting for the owner's answer. */
export const DEMO_STAYS_AT_THE_DESK: readonly DemoStay[] = [
  {
    customer: { displayName: 'Philippa Drewitt', phone: '+1 202-555-0170' },
    vehicle: {
      make: 'Ostrel',
      model: 'Fennick',
      modelYear: 2004,
      colour: 'silver',
      plate: 'FNK 300',
      weightKg: 1430,
      heightMm: 1500,
      valueCents: 190_000,
    },
    odometerKm: 226_870,
    concern: 'Bought it for my son. Is it safe, and what does it need first?',
    droppedOff: 1265,
    offer: {
      sent: 35,
      lines: [
        {
          title: 'Lower ball joint, front left',
          found: {
            title: 'Lower ball joint front left moves by hand',
            mayDrive: 'no',
            explanation: '3.5 mm of play where the shop’s limit is far less.',
            consequence: 'If it parts, the wheel folds under the car.',
            stake: 'harm',
          },
          operation: { code: 'BALL-JOINT', positions: ['front-left'] },
          items: [part('Lower ball joint', 'OF-3107', 1, 6260, 3180)],
          spread: { lowHundredths: 120, highHundredths: 320, lowItemsCents: 6260, highItemsCents: 9800 },
        },
        {
          title: 'Drive shaft boot, front left',
          found: {
            title: 'Drive shaft boot front left split',
            mayDrive: 'yes',
            explanation: 'Grease is thrown out all over the arm.',
            consequence: 'The joint wears out within months.',
            stake: 'dearer-later',
          },
          operation: { code: 'SHAFT-BOOT', positions: ['front-left'] },
          items: [part('Boot kit, outer', 'OF-2718', 1, 4180, 2050)],
        },
        {
          title: 'Brake fluid',
          found: {
            title: 'Brake fluid old',
            mayDrive: 'yes',
            explanation: 'Dark, 3.8 % water.',
            consequence: 'It boils earlier on a long descent.',
            stake: 'harm',
          },
          operation: { code: 'BRAKE-FLUID', positions: ['vehicle'] },
          items: [BRAKE_FLUID],
        },
        {
          title: 'Rear silencer',
          found: {
            title: 'Rear silencer rusted through',
            mayDrive: 'yes',
            explanation: 'Open at the seam.',
            consequence: 'Loud, and exhaust gas can get in.',
            stake: 'comfort',
          },
          operation: { code: 'EXHAUST-REAR', positions: ['vehicle'] },
          items: [part('Rear silencer', 'OF-6620', 1, 16_900, 9100)],
          spread: { lowHundredths: 70, highHundredths: 240, lowItemsCents: 16_900, highItemsCents: 27_500 },
        },
      ],
    },
  },
  {
    customer: { displayName: 'Aurel Stenby', phone: '+1 202-555-0186' },
    vehicle: {
      make: 'Lumora',
      model: 'Casketh',
      modelYear: 2005,
      colour: 'dark blue',
      plate: 'LCK 26B',
      weightKg: 1570,
      heightMm: 1475,
    },
    odometerKm: 187_330,
    concern: 'Yearly look over it, please. It has begun to pull to the right.',
    droppedOff: 70,
    walk: {
      by: 'Bram',
      began: 28,
      stations: 2,
      seen: [
        {
          where: 'Wiper blades@front',
          verdict: 'repair',
          mayDrive: 'yes',
          note: 'Streaks in the middle of the view.',
          consequence: 'Poor view in rain.',
        },
        {
          where: 'Tyre tread@front-right',
          verdict: 'watch',
          mayDrive: 'yes',
          reading: '2.9',
          lookAgainOdometer: 195_000,
          note: 'Outer edge lower than the rest.',
          consequence: 'It will not last the winter.',
        },
      ],
    },
  },
  {
    customer: { displayName: 'Nerys Calloway', phone: '+1 202-555-0194' },
    vehicle: {
      make: 'Velmara',
      model: 'Tindle',
      modelYear: 2015,
      colour: 'yellow',
      plate: 'VTD 904',
      weightKg: 1180,
      heightMm: 1530,
    },
    odometerKm: 96_410,
    concern: 'A rattle under the floor at low speed, only when it is cold.',
    droppedOff: 12,
  },
];
