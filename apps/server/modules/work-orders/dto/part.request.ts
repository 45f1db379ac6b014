import { Instant, Text, Whole } from '../../../platform/http/fields.js';

export class ReceivePartRequest {
  @Whole({
    min: -10_000_000,
    max: 10_000_000,
    unit: 'hundredths of the unit',
    description: 'What came in; negative to correct an earlier receipt.',
    example: 200,
  })
  quantityHundredths: number;
  @Text({ max: 500, optional: true, nullable: true }) note?: string | null;
}

export class ExpectPartRequest {
  @Instant({
    nullable: true,
    description: 'When it will come, as was heard now; null when nobody knows.',
    example: '2026-03-14T10:00:00-04:00',
  })
  expectedAt: string | null;
  @Text({ max: 500, optional: true, nullable: true }) note?: string | null;
}
