import type { Period } from '#libs/plan';
import type { DayPeriod } from './year-description.js';

/**
 * What a shop works with, week after week but for planned absences. Certificates and lift inspections are taken to be renewed in time, so nothing
 * here expires.
 */
export interface WhatIfFloor {
  /** When the shop is open; people work only then. */
  readonly opening: readonly DayPeriod[];
  readonly technicians: readonly WhatIfTechnician[];
  readonly bays: readonly WhatIfBay[];
  readonly tools?: readonly WhatIfTool[];
}

export interface WhatIfTechnician {
  readonly id: string;
  readonly hours: readonly DayPeriod[];
  readonly skills?: readonly string[];
  /** Minutes from the first Monday's midnight in which they are away, whatever their hours say. */
  readonly away?: readonly Period[];
}

export interface WhatIfBay {
  readonly id: string;
  readonly kind?: string;
  readonly maxHeightMm?: number | null;
  readonly lift?: { readonly kind: string; readonly capacityKg: number } | null;
}

/** One unit of a special tool. */
export interface WhatIfTool {
  readonly id: string;
  readonly kind: string;
}
