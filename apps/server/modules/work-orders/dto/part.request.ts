import { Text, Whole } from '../../../platform/http/fields.js';

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
