import { CONSEQUENCES, type Consequence } from '#libs/choice';
import { MAY_DRIVE, type MayDrive } from '#libs/inspection';
import { Day, Flag, OneOf, Text, Uuid, Whole } from '../../../platform/http/fields.js';

const VERDICTS_OF_FINDINGS = ['watch', 'repair'] as const;

export class RecordFindingRequest {
  @Uuid({ optional: true, nullable: true, description: 'The work order under way when it was found.' })
  workOrderId?: string | null;
  @Text({ max: 120, example: 'Front right caliper slide seized' }) title: string;
  @OneOf(VERDICTS_OF_FINDINGS) verdict: (typeof VERDICTS_OF_FINDINGS)[number];
  @OneOf(MAY_DRIVE) mayDrive: MayDrive;
  @Text({ max: 2000, optional: true, nullable: true, description: 'In words for the owner.' })
  explanation?: string | null;
  @Text({ max: 1000, optional: true, nullable: true, description: 'What happens if it waits.' })
  consequence?: string | null;
  @OneOf(CONSEQUENCES, {
    optional: true,
    nullable: true,
    description: 'What waiting puts at stake; null while nobody has said.',
  })
  stake?: Consequence | null;
  @Day({ optional: true, nullable: true, description: 'For watch: a day, an odometer, or both.' })
  lookAgainOn?: string | null;
  @Whole({ min: 1, max: 3_000_000, optional: true, nullable: true }) lookAgainOdometer?: number | null;
}

export class ChangeFindingRequest {
  @Text({ max: 120, optional: true }) title?: string;
  @Text({ max: 2000, optional: true, nullable: true }) explanation?: string | null;
  @Text({ max: 1000, optional: true, nullable: true }) consequence?: string | null;
  @OneOf(CONSEQUENCES, {
    optional: true,
    nullable: true,
    description: 'What waiting puts at stake; null while nobody has said.',
  })
  stake?: Consequence | null;
  @OneOf(VERDICTS_OF_FINDINGS, {
    optional: true,
    description: 'Verdict, mayDrive, look-again and withdrawing: only for a finding without an observation.',
  })
  verdict?: (typeof VERDICTS_OF_FINDINGS)[number];
  @OneOf(MAY_DRIVE, { optional: true }) mayDrive?: MayDrive;
  @Day({ optional: true, nullable: true }) lookAgainOn?: string | null;
  @Whole({ min: 1, max: 3_000_000, optional: true, nullable: true }) lookAgainOdometer?: number | null;
  @Flag({ optional: true, description: 'True: it was a mistake. Refused when a line answers it.' })
  withdrawn?: boolean;
}
