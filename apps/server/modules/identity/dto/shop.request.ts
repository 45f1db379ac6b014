import { CentsField, OneOf, Text, Whole } from '../../../platform/http/fields.js';

export class ChangeShopRequest {
  @Text({ max: 120, optional: true }) name?: string;
  @Text({ max: 40, optional: true, nullable: true }) phone?: string | null;
  @Text({ max: 400, optional: true, nullable: true }) address?: string | null;
  @Text({ max: 60, optional: true, description: 'IANA zone.' }) timeZone?: string;
  @Text({ optional: true, pattern: /^[A-Z]{3}$/, hint: 'Give an ISO 4217 code such as USD.' })
  currency?: string;
  @Text({
    max: 40,
    optional: true,
    nullable: true,
    description: 'Local law decides; this is not legal advice.',
  })
  jurisdiction?: string | null;
  @Whole({ max: 1439, optional: true, unit: 'minutes after midnight' }) dayStartsMinute?: number;
  @Whole({ min: 1, max: 1440, optional: true, unit: 'minutes after midnight' }) dayEndsMinute?: number;
  @OneOf(['line', 'invoice'], { optional: true }) taxRounding?: 'line' | 'invoice';
  @Whole({ max: 1_000_000, optional: true, unit: 'millionths of the labour' }) suppliesRatePpm?: number;
  @CentsField({ optional: true }) suppliesFloorCents?: number;
  @CentsField({ optional: true, nullable: true }) suppliesCapCents?: number | null;
  @Whole({ min: 1, max: 8760, optional: true, unit: 'hours' }) linkValidHours?: number;
  @Whole({
    max: 1_000_000,
    optional: true,
    unit: 'millionths',
    description:
      'How far corrosion and age move all hours of a car together: a standard deviation, in millionths.',
  })
  commonSpreadPpm?: number;
  @Whole({
    min: 1,
    max: 120,
    optional: true,
    unit: 'minutes',
    description: 'How long a place is held for somebody on the phone.',
  })
  holdMinutes?: number;
}
