import { CentsField, ListOf, OneOf, Text, Uuid, Whole } from '../../../platform/http/fields.js';

export class RangeShareResponse {
  @OneOf(['line', 'contingency', 'unseen', 'common'], {
    description: 'unseen: a checkpoint that could not be seen. common: corrosion and age, on all hours.',
  })
  kind: string;
  @Uuid({ nullable: true, description: 'Of the line, contingency or checkpoint.' }) id: string | null;
  @Text({ max: 400 }) words: string;
  @Whole({ max: 1_000_000, description: 'Millionths of the variance of the total that it causes.' })
  sharePpm: number;
}

export class RangeResponse {
  @CentsField({ description: 'In one case of ten the total is at most this. Tax and supplies are in it.' })
  p10Cents: number;
  @CentsField({ description: 'In half of all cases.' }) p50Cents: number;
  @CentsField({ description: 'In eight of ten.' }) p80Cents: number;
  @CentsField({ description: 'In nineteen of twenty.' }) p95Cents: number;
  @CentsField() meanCents: number;
  @CentsField({
    description: 'What the chosen lines cost as they stand, what is begun and charged included.',
  })
  priceCents: number;
  @CentsField({ description: 'What of it is agreed to and cannot vary any more.' }) agreedCents: number;
  @Whole() draws: number;
  @Whole({ max: 4_294_967_295, description: 'From the id of the revision: the same range every time.' })
  seed: number;
  @ListOf(() => RangeShareResponse, {
    max: 1000,
    description: 'The largest first; together 1 000 000, or all zero where nothing varies.',
  })
  shares: RangeShareResponse[];
}
