import { FIGURES } from '#libs/what-if';
import {
  Instant,
  ListOf,
  Nested,
  OneOf,
  Text,
  TextList,
  Uuid,
  Whole,
} from '../../../platform/http/fields.js';

export const WHAT_IF_STATES = ['waiting', 'running', 'answered', 'failed'] as const;
export type WhatIfState = (typeof WHAT_IF_STATES)[number];
export const WHAT_IF_SOURCES = ['history', 'catalogue'] as const;

const LEAST = -2_000_000_000;

export class WhatIfPersonResponse {
  @Uuid() id: string;
  @Text() displayName: string;
}

export class WhatIfFigureResponse {
  @OneOf(FIGURES) figure: string;
  @Whole({ min: LEAST, description: 'Hundredths of what the figure is in: hours, cars, percent.' })
  hundredths: number;
}

export class WhatIfDifferenceResponse {
  @OneOf(FIGURES) figure: string;
  @Whole({ min: LEAST, description: 'Alternative less base, mean over the years, in hundredths.' })
  hundredths: number;
  @Whole({ min: LEAST, nullable: true, description: 'Low end of the 95 % interval (Student, paired years).' })
  low: number | null;
  @Whole({ min: LEAST, nullable: true }) high: number | null;
}

export class WhatIfAdviceResponse {
  @Text() code: string;
  @Text({ max: 500 }) words: string;
}

export class WhatIfAlternativeResponse {
  @Text({ max: 500, description: 'What would be different, in words.' }) name: string;
  @ListOf(() => WhatIfFigureResponse, { description: 'Empty until answered.' })
  figures: WhatIfFigureResponse[];
  @ListOf(() => WhatIfDifferenceResponse, { description: 'Empty until answered.' })
  differences: WhatIfDifferenceResponse[];
  @ListOf(() => WhatIfAdviceResponse) advice: WhatIfAdviceResponse[];
}

export class WhatIfBasisResponse {
  @OneOf(WHAT_IF_SOURCES, {
    description: 'The shop’s last 90 days, or its catalogue where those are too few.',
  })
  source: string;
  @Whole({ description: 'Repair orders that the years are drawn from.' }) repairOrders: number;
  @Whole({ description: 'Finished work whose clocked hours were held against its book hours.' })
  finishedWork: number;
  @Instant() from: string;
  @Instant() to: string;
  @TextList({ description: 'What is not known and was taken to be so.', maxLength: 500 }) assumed: string[];
}

export class WhatIfSummaryResponse {
  @Uuid() id: string;
  @OneOf(WHAT_IF_STATES) state: WhatIfState;
  @Nested(() => WhatIfPersonResponse) askedBy: WhatIfPersonResponse;
  @Instant() askedAt: string;
  @Instant({ nullable: true }) endedAt: string | null;
  @TextList({ description: 'The alternatives, in words.', maxLength: 500 }) asked: string[];
}

export class WhatIfResponse extends WhatIfSummaryResponse {
  @Text({ nullable: true, max: 1000, description: 'Why there is no answer.' }) failedReason: string | null;
  @Whole() weeks: number;
  @Whole({ description: 'Years that are replayed.' }) years: number;
  @Nested(() => WhatIfBasisResponse) basis: WhatIfBasisResponse;
  @ListOf(() => WhatIfFigureResponse, {
    description: 'The shop as it is, mean over the years. Empty until answered.',
  })
  base: WhatIfFigureResponse[];
  @ListOf(() => WhatIfAlternativeResponse) alternatives: WhatIfAlternativeResponse[];
}
