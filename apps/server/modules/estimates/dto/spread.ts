import { CentsField, Whole } from '../../../platform/http/fields.js';

const HOURS = { max: 100_000, unit: 'hundredths of an hour' } as const;

/** How little and how much a line may come to; the line itself is what is likely. */
export class LineSpread {
  @Whole({ ...HOURS, description: 'Book time at least.' }) lowHundredths: number;
  @Whole({ ...HOURS, description: 'And at most.' }) highHundredths: number;
  @CentsField({ description: 'All its items at least, before discount, tax and core deposits.' })
  lowItemsCents: number;
  @CentsField({ description: 'And at most.' }) highItemsCents: number;
}
