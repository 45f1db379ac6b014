import { MAY_DRIVE, UNIT_NAMES, VERDICTS, type MayDrive, type Unit, type Verdict } from '#libs/inspection';
import { Day, DecimalText, ListOf, OneOf, Text, Uuid, Whole } from '../../../platform/http/fields.js';

export class StartInspectionRequest {
  @Uuid() templateId: string;
}

export class ReadingEntry {
  @Text({
    max: 60,
    optional: true,
    description: 'What was measured, "inner groove"; the name on the checkpoint unless given.',
  })
  name?: string;
  @DecimalText({ example: '2.0' }) value: string;
  @OneOf(UNIT_NAMES) unit: Unit;
}

export class PutObservationRequest {
  @OneOf(VERDICTS, { description: 'Sound parts are recorded too; unseen says why.' }) verdict: Verdict;
  @OneOf(MAY_DRIVE, { optional: true, nullable: true, description: 'For watch and repair.' })
  mayDrive?: MayDrive | null;
  @Text({ max: 300, optional: true, nullable: true }) unseenReason?: string | null;
  @Day({ optional: true, nullable: true, description: 'For watch: a day, an odometer, or both.' })
  lookAgainOn?: string | null;
  @Whole({ min: 1, max: 3_000_000, optional: true, nullable: true }) lookAgainOdometer?: number | null;
  @ListOf(() => ReadingEntry, { max: 12, optional: true }) readings?: ReadingEntry[];
  @Text({
    max: 2000,
    optional: true,
    nullable: true,
    description: 'What was seen; becomes the explanation of the finding. Needed to overrule a limit.',
  })
  note?: string | null;
  @Text({ max: 1000, optional: true, nullable: true, description: 'What happens if it waits.' })
  consequence?: string | null;
  @Text({
    max: 120,
    optional: true,
    nullable: true,
    description: 'Title of the finding; made of component and position unless given.',
  })
  title?: string | null;
}
