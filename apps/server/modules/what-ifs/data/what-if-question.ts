import type { Alternative, WhatIfFloor, YearDescription } from '#libs/what-if';

/** Everything that an answer depends on, so that a job that runs again answers the same. */
export interface WhatIfQuestion {
  readonly floor: WhatIfFloor;
  readonly year: YearDescription;
  readonly alternatives: readonly Alternative[];
  readonly seeds: readonly number[];
  readonly basis: WhatIfBasis;
}

/** What the year was made of. */
export interface WhatIfBasis {
  readonly source: 'history' | 'catalogue';
  /** Repair orders that are drawn from; 0 of the catalogue. */
  readonly repairOrders: number;
  /** Finished work whose hours were compared with its book hours. */
  readonly finishedWork: number;
  readonly from: string;
  readonly to: string;
  /** What is not known and was taken to be so, in words. */
  readonly assumed: readonly string[];
}
