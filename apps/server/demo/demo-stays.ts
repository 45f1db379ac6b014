import type { DemoStay } from './demo-stay.js';
import { DEMO_STAYS_AT_THE_DESK } from './demo-stays-at-the-desk.js';
import { DEMO_STAYS_IN_THE_BAYS } from './demo-stays-in-the-bays.js';
import { DEMO_STAYS_PLANNED } from './demo-stays-planned.js';

/** Every car that is in the shop when it is made. */
export const DEMO_STAYS: readonly DemoStay[] = [
  ...DEMO_STAYS_IN_THE_BAYS,
  ...DEMO_STAYS_PLANNED,
  ...DEMO_STAYS_AT_THE_DESK,
];
