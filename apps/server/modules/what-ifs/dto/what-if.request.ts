import { ListOf, OneOf, Uuid, UuidList, Whole } from '../../../platform/http/fields.js';
import { PageQuery } from '../../../platform/http/pages.js';

export const WHAT_IF_CHANGES = [
  'bay',
  'bay-away',
  'technician',
  'technician-away',
  'day-open',
  'tool',
] as const;
export type WhatIfChangeKind = (typeof WHAT_IF_CHANGES)[number];
export const MOST_ALTERNATIVES = 6;

export class WhatIfChangeRequest {
  @OneOf(WHAT_IF_CHANGES, {
    description:
      'One more bay, technician or unit of a special tool; a bay or technician less; the shop open on a day of the week.',
  })
  kind: WhatIfChangeKind;

  @Uuid({
    optional: true,
    description:
      'The bay, technician or special tool that one more is like, or that goes. Not for `day-open`.',
  })
  id?: string;

  @Whole({ min: 1, max: 7, optional: true, description: 'Of `day-open`: 1 is Monday.' })
  weekday?: number;

  @Whole({ min: 0, max: 1440, optional: true, unit: 'minutes since midnight', description: 'Of `day-open`.' })
  fromMinute?: number;

  @Whole({ min: 0, max: 1440, optional: true, unit: 'minutes since midnight', description: 'Of `day-open`.' })
  toMinute?: number;

  @UuidList({ optional: true, description: 'Of `day-open`: who works then; everybody when left out.' })
  technicianIds?: string[];
}

export class WhatIfAlternativeRequest {
  @ListOf(() => WhatIfChangeRequest, { max: 4, description: 'What would be different, all of it at once.' })
  changes: WhatIfChangeRequest[];
}

export class AskWhatIfRequest {
  @ListOf(() => WhatIfAlternativeRequest, {
    max: MOST_ALTERNATIVES,
    description: 'Each is compared with the shop as it is.',
  })
  alternatives: WhatIfAlternativeRequest[];

  @Whole({ min: 4, max: 52, optional: true, description: 'Weeks of each replayed year. 26 when left out.' })
  weeks?: number;

  @Whole({
    min: 2,
    max: 12,
    optional: true,
    description: 'How many different years are replayed; more make the intervals narrower. 5 when left out.',
  })
  years?: number;
}

export class WhatIfsQuery extends PageQuery {}
