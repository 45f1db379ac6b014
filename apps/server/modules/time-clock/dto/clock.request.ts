import { Day, Instant, OneOf, Text, Uuid } from '../../../platform/http/fields.js';
import { PageQuery } from '../../../platform/http/pages.js';

export const INDIRECT_KINDS = [
  'cleaning',
  'training',
  'waiting',
  'parts-run',
  'road-test',
  'meeting',
  'other',
] as const;
export type IndirectKind = (typeof INDIRECT_KINDS)[number];

export class ClockOnRequest {
  @Uuid({ optional: true, description: 'Give this or `lineId`.' }) workOrderId?: string;
  @Uuid({
    optional: true,
    description: 'The line; its work order is found, or the refusal says why there is none.',
  })
  lineId?: string;
}

export class ClockSwitchRequest {
  @Uuid({ optional: true, description: 'Give this or `indirectKind`.' }) workOrderId?: string;
  @OneOf(INDIRECT_KINDS, { optional: true }) indirectKind?: IndirectKind;
}

export class ClockPauseRequest {
  @Text({ max: 300, description: 'Why the work stops here.', example: 'Waiting for the caliper' })
  reason: string;
}

export class ClockIndirectRequest {
  @OneOf(INDIRECT_KINDS) kind: IndirectKind;
}

export class CloseEntryRequest {
  @Instant({ description: 'When the work really ended; not in the future.' }) at: string;
  @Text({ max: 500 }) reason: string;
}

export class CorrectClockEntryRequest {
  @Instant() startedAt: string;
  @Instant() endedAt: string;
  @Uuid({ optional: true, description: 'Where the time belongs, if it was clocked on the wrong thing.' })
  workOrderId?: string;
  @OneOf(INDIRECT_KINDS, { optional: true, description: 'Where the time belongs, if it was no work order.' })
  indirectKind?: IndirectKind;
  @Text({ max: 500 }) reason: string;
}

export class CorrectAttendanceRequest {
  @Instant() startedAt: string;
  @Instant() endedAt: string;
  @Text({ max: 500 }) reason: string;
}

export class EntriesQuery extends PageQuery {
  @Uuid({
    optional: true,
    description: 'Yourself unless given; for others and for everybody a manager asks.',
  })
  technicianId?: string;
  @Day({ optional: true, description: 'From the beginning of this day of the shop.' }) from?: string;
  @Day({ optional: true, description: 'Through the end of this day of the shop.' }) to?: string;
}
