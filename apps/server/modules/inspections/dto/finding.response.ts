import { CONSEQUENCES } from '#libs/choice';
import { Flag, ListOf, Nested, OneOf, Text, Uuid, Whole } from '../../../platform/http/fields.js';
import { PhotoResponse } from './photo.js';

export class LineOfFinding {
  @Uuid() lineId: string;
  @Text() title: string;
  @Whole({ min: 1 }) revisionNumber: number;
  @Flag() isSent: boolean;
}

export class DecisionOnFinding {
  @Uuid() lineId: string;
  @OneOf(['approved', 'declined', 'deferred']) answer: string;
  @Text({ description: 'RFC 3339.' }) decidedAt: string;
  @Text() decidedBy: string;
  @OneOf(['link', 'phone', 'in-person']) channel: string;
  @Text({ nullable: true }) lookAgainOn: string | null;
}

class FindingFields {
  @Uuid() id: string;
  @Uuid() repairOrderId: string;
  @Uuid() vehicleId: string;
  @Uuid({ nullable: true, description: 'Null when it was found under way, outside an inspection.' })
  observationId: string | null;
  @Uuid({ nullable: true }) workOrderId: string | null;
  @Text() title: string;
  @OneOf(['watch', 'repair']) verdict: 'watch' | 'repair';
  @OneOf(['Watch', 'Repair', 'Unsafe']) word: string;
  @OneOf(['yes', 'to-the-shop-only', 'no']) mayDrive: string;
  @Text({ max: 2000, nullable: true }) explanation: string | null;
  @Text({ max: 1000, nullable: true }) consequence: string | null;
  @OneOf(CONSEQUENCES, { nullable: true, description: 'What waiting puts at stake.' }) stake: string | null;
  @Text({ nullable: true }) lookAgainOn: string | null;
  @Whole({ nullable: true }) lookAgainOdometer: number | null;
  @Text() foundByName: string;
  @Text({ description: 'RFC 3339.' }) foundAt: string;
  @ListOf(() => PhotoResponse) photos: PhotoResponse[];
  @ListOf(() => LineOfFinding, { description: 'The lines that answer it.' }) lines: LineOfFinding[];
  @Nested(() => DecisionOnFinding, { nullable: true, description: 'The latest on any of its lines.' })
  decision: DecisionOnFinding | null;
  @Whole({ min: 1 }) version: number;
}

export class FindingResponse extends FindingFields {
  @Flag() isWithdrawn: boolean;
}

export class FindingsResponse {
  @ListOf(() => FindingResponse) items: FindingResponse[];
}

export const STANDINGS = ['watched', 'deferred', 'declined', 'undecided'] as const;

export class VehicleFindingResponse extends FindingFields {
  @Whole({ min: 1 }) repairOrderNumber: number;
  @OneOf(STANDINGS, { description: 'Why it is still open.' }) standing: (typeof STANDINGS)[number];
}

export class VehicleFindingsResponse {
  @ListOf(() => VehicleFindingResponse) items: VehicleFindingResponse[];
}
