import { Instant, ListOf, Nested, OneOf, Text, Uuid, Whole } from '../../../platform/http/fields.js';

export const CLOCK_KINDS = ['work', 'indirect'] as const;

export class ClockEntryResponse {
  @Uuid() id: string;
  @Uuid() technicianId: string;
  @Text() technicianName: string;
  @OneOf(CLOCK_KINDS) kind: (typeof CLOCK_KINDS)[number];
  @Uuid({ nullable: true }) workOrderId: string | null;
  @Whole({ min: 1, nullable: true }) workOrderNumber: number | null;
  @Text({ nullable: true }) workOrderTitle: string | null;
  @Text({ nullable: true }) indirectKind: string | null;
  @Instant() startedAt: string;
  @Instant({ nullable: true, description: 'Null while the clock runs.' }) endedAt: string | null;
  @Whole({ unit: 'seconds', description: 'Whole seconds, half up; up to now while the clock runs.' })
  seconds: number;
  @Text({ nullable: true, description: 'off, switch, pause, finish, closed-by-manager or corrected.' })
  endKind: string | null;
  @Text({ nullable: true }) endReason: string | null;
  @Uuid({ nullable: true, description: 'Who ended it.' }) endedBy: string | null;
  @Uuid({ nullable: true, description: 'The entry that this one corrects.' }) correctsId: string | null;
  @Text({ nullable: true }) correctionReason: string | null;
  @Instant({ nullable: true, description: 'When a correction took its place; it counts nowhere since.' })
  supersededAt: string | null;
  @Uuid() recordedBy: string;
}

export class ClockWarningResponse {
  @OneOf(['not-in-attendance']) code: 'not-in-attendance';
  @Text({ max: 300 }) detail: string;
}

export class ClockActResponse {
  @Nested(() => ClockEntryResponse, { description: 'What runs now, or what was ended.' })
  entry: ClockEntryResponse;
  @Nested(() => ClockEntryResponse, {
    nullable: true,
    description: 'What a switch ended at the same instant.',
  })
  ended: ClockEntryResponse | null;
  @ListOf(() => ClockWarningResponse, { description: 'Said, and not forbidden.' })
  warnings: ClockWarningResponse[];
}

export class AttendanceEntryResponse {
  @Uuid() id: string;
  @Uuid() technicianId: string;
  @Text() technicianName: string;
  @Instant() startedAt: string;
  @Instant({ nullable: true }) endedAt: string | null;
  @Whole({ unit: 'seconds' }) seconds: number;
  @Uuid({ nullable: true }) endedBy: string | null;
  @Uuid({ nullable: true }) correctsId: string | null;
  @Text({ nullable: true }) correctionReason: string | null;
  @Instant({ nullable: true }) supersededAt: string | null;
  @Uuid() recordedBy: string;
}

export class ClockNowResponse {
  @Nested(() => ClockEntryResponse, { nullable: true }) entry: ClockEntryResponse | null;
  @Nested(() => AttendanceEntryResponse, { nullable: true }) attendance: AttendanceEntryResponse | null;
}
