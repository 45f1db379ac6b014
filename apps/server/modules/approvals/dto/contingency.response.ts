import { CONTINGENCY_STATES, type ContingencyState } from '#libs/approval';
import {
  CentsField,
  Flag,
  Instant,
  ListOf,
  Nested,
  OneOf,
  Text,
  Uuid,
  Whole,
} from '../../../platform/http/fields.js';

/** What counts now for a contingency of a revision. */
export class ContingencyStandingResponse {
  @Uuid() contingencyId: string;
  @Uuid() lineId: string;
  @OneOf(CONTINGENCY_STATES) state: ContingencyState;
  @CentsField() capCents: number;
  @CentsField({ nullable: true }) chargedCents: number | null;
}

export class ShownTriggerResponse {
  @Text({ max: 1000 }) reason: string;
  @Text({ max: 400, description: 'Of its photo.' }) path: string;
  @Whole({ unit: 'hundredths of an hour' }) hundredths: number;
  @Instant() triggeredAt: string;
}

/** A contingency as the owner is shown it. */
export class ShownContingencyResponse extends ContingencyStandingResponse {
  @Text() what: string;
  @Whole({ min: 1, unit: 'millionths' }) chancePpm: number;
  @Whole({ unit: 'hundredths of an hour' }) hundredths: number;
  @ListOf(() => ShownContingencyItemResponse) items: ShownContingencyItemResponse[];
  @Nested(() => ShownTriggerResponse, { nullable: true }) trigger: ShownTriggerResponse | null;
}

export class ShownContingencyItemResponse {
  @OneOf(['part', 'fluid', 'sublet', 'fee']) kind: string;
  @Text() words: string;
  @Text({ nullable: true }) condition: string | null;
  @Whole({ unit: 'hundredths of its unit' }) quantityHundredths: number;
  @CentsField() unitPriceCents: number;
  @CentsField() coreCents: number;
}

export class RecordedContingencyResponse {
  @Uuid() id: string;
  @Uuid() contingencyId: string;
  @Uuid() lineId: string;
  @Uuid() revisionId: string;
  @Text({ description: 'What may happen.' }) what: string;
  @Whole({ min: 1, description: 'Of the contingency; the highest counts.' }) sequence: number;
  @Flag({ description: 'False: the owner wants to be asked first.' }) agreed: boolean;
  @CentsField({ description: 'What was shown as the most that it may cost.' }) capCents: number;
  @OneOf(['answered', 'line-given-up'], {
    description: 'line-given-up: agreed to before; its line was declined or put off.',
  })
  because: string;
  @Text() shownSha256: string;
  @Instant() decidedAt: string;
  @OneOf(['link', 'phone', 'in-person']) channel: string;
  @Text() decidedBy: string;
  @Uuid({ nullable: true }) linkId: string | null;
  @Text({ nullable: true }) recordedBy: string | null;
  @Flag({ description: 'Whether it is the latest of its contingency.' }) counts: boolean;
}
