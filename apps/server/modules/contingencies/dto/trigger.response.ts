import { CONTINGENCY_STATES, type ContingencyState } from '#libs/approval';
import type { Breakdown } from '#libs/estimate';
import {
  AnyObject,
  CentsField,
  ListOf,
  Nested,
  OneOf,
  Text,
  Uuid,
  Whole,
} from '../../../platform/http/fields.js';
import { ContingencyTriggerResponse } from '../../estimates/index.js';

export class TriggeredContingencyResponse {
  @Uuid() contingencyId: string;
  @Uuid() lineId: string;
  @Uuid() repairOrderId: string;
  @Uuid() workOrderId: string;
  @Text() what: string;
  @CentsField({ description: 'What the owner had agreed to at most, tax included.' }) capCents: number;
  @Nested(() => ContingencyTriggerResponse) trigger: ContingencyTriggerResponse;
  @AnyObject({ description: 'How the charge came about: figure, of, cents or hundredths, rule, inputs.' })
  breakdown: Breakdown;
  @Whole({ unit: 'hundredths of an hour', description: 'Of the work order, with these.' })
  bookHundredths: number;
  @CentsField({ description: 'What is agreed to over the whole repair order, with this charge.' })
  authorisedCents: number;
  @CentsField({ description: 'What may still come on top: agreed caps of what has not happened.' })
  contingentCents: number;
}

export class WorkContingencyItemResponse {
  @Uuid() itemId: string;
  @Text() words: string;
  @Whole({ unit: 'hundredths of its unit' }) quantityHundredths: number;
}

/** A contingency as the person at the car needs it. */
export class WorkContingencyResponse {
  @Uuid() contingencyId: string;
  @Text() what: string;
  @Whole({ unit: 'hundredths of an hour' }) hundredths: number;
  @ListOf(() => WorkContingencyItemResponse) items: WorkContingencyItemResponse[];
  @OneOf(CONTINGENCY_STATES, {
    description: 'agreed: it may be told when it happens. proposed, refused: the owner is asked first.',
  })
  state: ContingencyState;
  @Nested(() => ContingencyTriggerResponse, { nullable: true }) trigger: ContingencyTriggerResponse | null;
}

export class WorkContingenciesResponse {
  @Uuid() workOrderId: string;
  @ListOf(() => WorkContingencyResponse) items: WorkContingencyResponse[];
}
