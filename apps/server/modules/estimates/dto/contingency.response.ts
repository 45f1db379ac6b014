import { CONTINGENCY_STATES, type ContingencyState } from '#libs/approval';
import {
  CentsField,
  Instant,
  ListOf,
  Nested,
  OneOf,
  Text,
  Uuid,
  Whole,
} from '../../../platform/http/fields.js';

export class ContingencyItemResponse {
  @Uuid() id: string;
  @OneOf(['part', 'fluid', 'sublet', 'fee']) kind: string;
  @Text() name: string;
  @Text({ nullable: true }) partNumber: string | null;
  @Text({ nullable: true }) condition: string | null;
  @Text({ nullable: true }) source: string | null;
  @Whole({ unit: 'hundredths of its unit' }) quantityHundredths: number;
  @CentsField() unitPriceCents: number;
  @CentsField({ nullable: true, description: 'Null for whoever may not write estimates.' })
  unitCostCents: number | null;
  @CentsField() coreCents: number;
}

export class ContingencyTriggerResponse {
  @Text({ max: 1000 }) reason: string;
  @Uuid() photoId: string;
  @Whole({ unit: 'hundredths of an hour' }) hundredths: number;
  @CentsField() labourCents: number;
  @CentsField({ description: 'Items, without core deposits.' }) partsCents: number;
  @CentsField() coreCents: number;
  @CentsField() suppliesCents: number;
  @CentsField() taxCents: number;
  @CentsField({ description: 'What is charged: labour + parts + core + supplies + tax, at most the cap.' })
  totalCents: number;
  @CentsField({ description: 'What it would have come to without the cap.' }) uncappedCents: number;
  @Instant() triggeredAt: string;
  @Text() triggeredBy: string;
}

export class ContingencyResponse {
  @Uuid() id: string;
  @Uuid() lineId: string;
  @Uuid() revisionId: string;
  @Whole({ description: 'Of the revision; the ETag for changes.' }) version: number;
  @Whole({ min: 1 }) sequence: number;
  @Text({ description: 'What may happen.' }) what: string;
  @Whole({ min: 1, unit: 'millionths' }) chancePpm: number;
  @Whole({ unit: 'hundredths of an hour' }) hundredths: number;
  @ListOf(() => ContingencyItemResponse) items: ContingencyItemResponse[];
  @CentsField({ description: 'The most that is charged for it, tax included.' }) capCents: number;
  @CentsField({
    description:
      'What it comes to as planned, tax included and without the cap, beside all lines of its revision.',
  })
  priceCents: number;
  @OneOf(CONTINGENCY_STATES, {
    description: 'refused: the owner wants to be asked first. triggered: it has happened and is charged.',
  })
  state: ContingencyState;
  @CentsField({ nullable: true, description: 'What is charged for it; null until it has happened.' })
  chargedCents: number | null;
  @Nested(() => ContingencyTriggerResponse, { nullable: true }) trigger: ContingencyTriggerResponse | null;
}
