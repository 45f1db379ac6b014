import { BANDS } from '#libs/range';
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

const LOWEST = -2_000_000_000;

export class RatioResponse {
  @Text({ description: 'Numerator ÷ denominator, in words.' }) label: string;
  @Whole() numerator: number;
  @Whole() denominator: number;
  @Whole({
    nullable: true,
    description: 'In millionths: 1 250 000 is 1.25. Null when the denominator is zero.',
  })
  ppm: number | null;
}

export class ComparisonResponse {
  @Whole({ unit: 'hundredths of an hour' }) soldHundredths: number;
  @Whole({ unit: 'seconds' }) soldSeconds: number;
  @Whole({ unit: 'seconds', description: 'Superseded clock entries are left out.' }) clockedSeconds: number;
  @Whole({ min: LOWEST, unit: 'seconds', description: 'Sold less clocked.' }) differenceSeconds: number;
  @CentsField({ description: 'As shown with the approving decision, with contingencies that happened.' })
  labourCents: number;
  @CentsField({ description: 'As shown with the approving decision, with contingencies that happened.' })
  partsCents: number;
  @Nested(() => RatioResponse) clockedPerSold: RatioResponse;
  @Nested(() => RatioResponse) soldPerClocked: RatioResponse;
}

export class CreditResponse {
  @Uuid() technicianId: string;
  @Text() displayName: string;
  @Whole({ unit: 'seconds' }) clockedSeconds: number;
  @Whole({ unit: 'hundredths of an hour', description: 'The share of the book hours, by time clocked.' })
  creditedHundredths: number;
}

export class ReviewLineResponse {
  @Uuid() lineId: string;
  @Text() title: string;
  @Uuid() repairOrderId: string;
  @Whole({ min: 1 }) repairOrderNumber: number;
  @Uuid({ nullable: true }) workOrderId: string | null;
  @Whole({ min: 1, nullable: true }) workOrderNumber: number | null;
  @Instant({ nullable: true }) finishedAt: string | null;
  @Instant({ nullable: true }) checkedAt: string | null;
  @CentsField({
    description:
      'Labour, parts, supplies and tax, as shown with the approving decision, with the contingencies that happened.',
  })
  totalCents: number;
  @Whole({
    unit: 'hundredths of an hour',
    description: 'Of the book hours sold: by contingencies that happened.',
  })
  contingencyHundredths: number;
  @CentsField({ description: 'Of the total: by contingencies that happened.' }) contingencyCents: number;
  @Nested(() => ComparisonResponse) comparison: ComparisonResponse;
  @ListOf(() => CreditResponse) technicians: CreditResponse[];
}

export class ReviewLinesResponse {
  @Text() from: string;
  @Text() to: string;
  @ListOf(() => ReviewLineResponse, { description: 'The lines whose work was finished in the period.' })
  lines: ReviewLineResponse[];
  @Nested(() => ComparisonResponse, { description: 'Ratio of totals, not mean of ratios.' })
  total: ComparisonResponse;
}

export class AgreedRangeResponse {
  @CentsField({ description: 'In one case of ten the total is at most this. Tax and supplies are in it.' })
  p10Cents: number;
  @CentsField({ description: 'In half of all cases.' }) p50Cents: number;
  @CentsField({ description: 'In eight of ten.' }) p80Cents: number;
  @CentsField({ description: 'In nineteen of twenty.' }) p95Cents: number;
}

export class RepairOrderReviewResponse {
  @Uuid() repairOrderId: string;
  @Whole({ min: 1 }) repairOrderNumber: number;
  @ListOf(() => ReviewLineResponse, { description: 'Every line that the owner approved.' })
  lines: ReviewLineResponse[];
  @Nested(() => ComparisonResponse) total: ComparisonResponse;
  @CentsField({
    description: 'What the owner agreed to so far, tax included, with contingencies that happened.',
  })
  authorisedCents: number;
  @CentsField({ description: 'What might still have come on top: agreed caps of what has not happened.' })
  contingentCents: number;
  @CentsField({ description: 'Of that, the lines whose work is finished and checked.' })
  invoiceableCents: number;
  @Whole({ description: 'Lines that were sent and have no answer.' }) undecidedLines: number;
  @Flag({ description: 'Every approved line is finished and checked, and no line waits for an answer.' })
  everythingDone: boolean;
  @Instant({ nullable: true }) pickedUpAt: string | null;
  @Nested(() => AgreedRangeResponse, {
    nullable: true,
    description:
      'What the owner was told that the approved lines may come to, from the revisions that he had when he first agreed. Null until the vehicle is picked up, and where nothing was agreed to.',
  })
  range: AgreedRangeResponse | null;
  @CentsField({ nullable: true, description: 'What may be invoiced, once the vehicle is picked up.' })
  totalCents: number | null;
  @Flag({ nullable: true, description: 'The total stayed at or below the P80. Null without a range.' })
  isWithinP80: boolean | null;
  @OneOf(BANDS, { nullable: true, description: 'Where in the range the total lies.' })
  band: string | null;
  @CentsField({
    nullable: true,
    description: 'Of the total: lines of revisions that were sent after the owner had first agreed.',
  })
  laterCents: number | null;
}

export class TechnicianReviewResponse {
  @Uuid({
    nullable: true,
    description: 'Null: book hours of finished work on which nobody was on the clock.',
  })
  technicianId: string | null;
  @Text() displayName: string;
  @Nested(() => ComparisonResponse, {
    description: 'Work finished in the period, credited by time clocked on it.',
  })
  comparison: ComparisonResponse;
  @Whole({ unit: 'seconds', description: 'In the building in the period.' }) attendedSeconds: number;
  @Whole({ unit: 'seconds', description: 'On work orders in the period, finished or not.' })
  jobSeconds: number;
  @Whole({ unit: 'seconds', description: 'On indirect time in the period.' }) indirectSeconds: number;
  @Nested(() => RatioResponse) jobPerAttended: RatioResponse;
  @Nested(() => RatioResponse) soldPerAttended: RatioResponse;
}

export class TechniciansReviewResponse {
  @Text() from: string;
  @Text() to: string;
  @ListOf(() => TechnicianReviewResponse) technicians: TechnicianReviewResponse[];
  @Nested(() => ComparisonResponse) total: ComparisonResponse;
}
