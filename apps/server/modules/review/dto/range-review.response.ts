import { CentsField, Instant, ListOf, Nested, Text, Uuid, Whole } from '../../../platform/http/fields.js';
import { RatioResponse } from './review.response.js';

const MILLION = 1_000_000;

export class HeldShareResponse extends RatioResponse {
  @Whole({ min: 1, max: 99, description: 'Of the P: 80 is the P80.' }) level: number;
  @Whole({
    max: MILLION,
    description:
      'Millionths that should hold at least. Where one total comes often, a true range holds oftener.',
  })
  expectedPpm: number;
  @Whole({
    nullable: true,
    max: MILLION,
    description: 'Low end of Wilson’s interval at 95 percent. Null when the denominator is zero.',
  })
  intervalLowPpm: number | null;
  @Whole({ nullable: true, max: MILLION, description: 'Its high end.' }) intervalHighPpm: number | null;
}

export class OverP80Response {
  @Uuid() repairOrderId: string;
  @Whole({ min: 1 }) repairOrderNumber: number;
  @Instant() pickedUpAt: string;
  @CentsField({ description: 'What the finished and checked lines came to, contingencies included.' })
  totalCents: number;
  @CentsField() p80Cents: number;
  @CentsField({ description: 'The total less the P80.' }) overCents: number;
  @CentsField({ description: 'Of the total: by contingencies that happened.' }) contingencyCents: number;
  @CentsField({
    description: 'Of the total: lines of revisions that were sent after the owner had first agreed.',
  })
  laterCents: number;
}

export class RangesReviewResponse {
  @Text() from: string;
  @Text() to: string;
  @Whole({ description: 'Repair orders whose vehicle was picked up in the period.' }) pickedUp: number;
  @Whole({ description: 'Of these: nothing was sold, or what was sent gives no range.' }) unscored: number;
  @Whole({ description: 'Of these: older than the newest ones that one answer scores. Ask for less time.' })
  leftOut: number;
  @ListOf(() => HeldShareResponse, {
    description: 'P50, P80 and P95 of the repair orders of which something was uncertain.',
  })
  held: HeldShareResponse[];
  @Nested(() => RatioResponse, {
    description: 'Where nothing was uncertain, a range is a single amount. These are not in the shares.',
  })
  singleAmounts: RatioResponse;
  @ListOf(() => OverP80Response, {
    max: 200,
    description: 'All that went above their P80, or above their single amount; the most above first.',
  })
  overP80: OverP80Response[];
}
