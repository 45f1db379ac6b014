import {
  CentsField,
  Flag,
  Instant,
  ListOf,
  Nested,
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
  @CentsField({ description: 'As shown with the approving decision.' }) labourCents: number;
  @CentsField({ description: 'As shown with the approving decision.' }) partsCents: number;
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
  @CentsField({ description: 'Labour, parts, supplies and tax, as shown with the approving decision.' })
  totalCents: number;
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

export class RepairOrderReviewResponse {
  @Uuid() repairOrderId: string;
  @Whole({ min: 1 }) repairOrderNumber: number;
  @ListOf(() => ReviewLineResponse, { description: 'Every line that the owner approved.' })
  lines: ReviewLineResponse[];
  @Nested(() => ComparisonResponse) total: ComparisonResponse;
  @CentsField({ description: 'What the owner agreed to so far, tax included.' }) authorisedCents: number;
  @CentsField({ description: 'Of that, the lines whose work is finished and checked.' })
  invoiceableCents: number;
  @Whole({ description: 'Lines that were sent and have no answer.' }) undecidedLines: number;
  @Flag({ description: 'Every approved line is finished and checked, and no line waits for an answer.' })
  everythingDone: boolean;
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
