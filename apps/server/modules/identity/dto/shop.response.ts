import { CentsField, Flag, OneOf, Text, Uuid, Whole } from '../../../platform/http/fields.js';

export class ShopResponse {
  @Uuid() id: string;
  @Text() slug: string;
  @Text() name: string;
  @Text({ nullable: true }) phone: string | null;
  @Text({ nullable: true, max: 400 }) address: string | null;
  @Text() timeZone: string;
  @Text() currency: string;
  @Text({ nullable: true }) jurisdiction: string | null;
  @Whole({ unit: 'minutes after midnight' }) dayStartsMinute: number;
  @Whole({ unit: 'minutes after midnight' }) dayEndsMinute: number;
  @OneOf(['line', 'invoice']) taxRounding: string;
  @Whole({ unit: 'millionths of the labour' }) suppliesRatePpm: number;
  @CentsField() suppliesFloorCents: number;
  @CentsField({ nullable: true }) suppliesCapCents: number | null;
  @Whole({ unit: 'hours' }) linkValidHours: number;
  @Whole({
    max: 1_000_000,
    description:
      'How far corrosion and age move all hours of a car together: a standard deviation, in millionths.',
  })
  commonSpreadPpm: number;
  @Whole({
    min: 1,
    max: 120,
    unit: 'minutes',
    description: 'How long a place is held for somebody on the phone.',
  })
  holdMinutes: number;
  @Flag() isDemo: boolean;
  @Whole({ min: 1 }) version: number;
}
