import { CentsField, Day, Instant, OneOf, Text, Uuid, Whole } from '../../../platform/http/fields.js';

export class DecisionResponse {
  @Uuid() id: string;
  @Uuid() lineId: string;
  @Uuid() revisionId: string;
  @Whole({ min: 1, description: 'Of the line; the highest counts.' }) sequence: number;
  @OneOf(['approved', 'declined', 'deferred']) answer: string;
  @Whole({ unit: 'hundredths of an hour' }) shownHundredths: number;
  @CentsField() shownLabourCents: number;
  @CentsField({ description: 'Parts, fluids, sublet, fees and core deposits.' }) shownPartsCents: number;
  @CentsField() shownSuppliesCents: number;
  @CentsField() shownTaxCents: number;
  @CentsField({ description: 'What was taken off; the other figures are net of it.' })
  shownDiscountCents: number;
  @CentsField({ description: 'What was shown for the line: with what was chosen, or alone if it was not.' })
  shownTotalCents: number;
  @Text() shownSha256: string;
  @Instant() decidedAt: string;
  @OneOf(['link', 'phone', 'in-person']) channel: string;
  @Text({ description: 'The name that was given.' }) decidedBy: string;
  @Day({ nullable: true }) lookAgainOn: string | null;
}
