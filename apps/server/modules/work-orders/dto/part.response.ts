import { Flag, Instant, ListOf, Nested, OneOf, Text, Uuid, Whole } from '../../../platform/http/fields.js';

export class PartReceiptResponse {
  @Uuid() id: string;
  @Uuid() lineItemId: string;
  @Whole({ min: -10_000_000, unit: 'hundredths of the unit' }) quantityHundredths: number;
  @Instant() receivedAt: string;
  @Uuid() receivedBy: string;
  @Text({ nullable: true }) note: string | null;
  @Whole({ unit: 'hundredths of the unit' }) neededHundredths: number;
  @Whole({ unit: 'hundredths of the unit', description: 'All receipts of the item together.' })
  receivedHundredths: number;
}

export class PartExpectationResponse {
  @Uuid() id: string;
  @Uuid() lineItemId: string;
  @Instant({ nullable: true }) expectedAt: string | null;
  @Instant() toldAt: string;
  @Uuid() toldBy: string;
  @Text({ nullable: true }) note: string | null;
}

export class PartToldByResponse {
  @Uuid() id: string;
  @Text() displayName: string;
}

export class PartToldResponse {
  @Instant() at: string;
  @Nested(() => PartToldByResponse) by: PartToldByResponse;
  @Text({ nullable: true }) note: string | null;
}

export class PartNeedResponse {
  @Uuid() lineItemId: string;
  @Uuid() lineId: string;
  @Text() lineTitle: string;
  @Uuid({ nullable: true }) workOrderId: string | null;
  @OneOf(['part', 'sublet']) kind: 'part' | 'sublet';
  @Text() name: string;
  @Text({ nullable: true }) partNumber: string | null;
  @Text({ nullable: true }) condition: string | null;
  @Text({ nullable: true }) source: string | null;
  @Whole({ unit: 'hundredths of the unit' }) neededHundredths: number;
  @Whole({ unit: 'hundredths of the unit' }) receivedHundredths: number;
  @Whole({ unit: 'hundredths of the unit' }) missingHundredths: number;
  @Instant({
    nullable: true,
    description: 'As was told last, otherwise as the sent line says; null when nobody knows.',
  })
  expectedAt: string | null;
  @Flag({ description: 'That time has passed, and some of it is not here.' }) isOverdue: boolean;
  @Nested(() => PartToldResponse, {
    nullable: true,
    description: 'When and by whom that was told; null when it is what the sent line says.',
  })
  told: PartToldResponse | null;
}

export class PartNeedsResponse {
  @ListOf(() => PartNeedResponse) items: PartNeedResponse[];
}
