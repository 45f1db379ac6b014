import { Day, Instant, ListOf, Text, Uuid, Whole } from '../../../platform/http/fields.js';

export class ClosedDayResponse {
  @Day() day: string;
  @Text() name: string;
}

export class ClosedDaysResponse {
  @ListOf(() => ClosedDayResponse) items: ClosedDayResponse[];
}

/** Work with a place in a time in which it cannot be done as planned. */
export class PlannedInResponse {
  @Uuid() workOrderId: string;
  @Whole({ min: 1 }) workOrderNumber: number;
  @Text() title: string;
  @Instant() startsAt: string;
  @Instant() endsAt: string;
}

export class AbsenceResponse {
  @Uuid() id: string;
  @Uuid() technicianId: string;
  @Text() technicianName: string;
  @Instant() startsAt: string;
  @Instant() endsAt: string;
  @Text({ nullable: true }) reason: string | null;
  @Text() recordedBy: string;
  @Instant() recordedAt: string;
  @ListOf(() => PlannedInResponse, { description: 'Open work that is planned for them in that time.' })
  planned: PlannedInResponse[];
  @Whole({ min: 1 }) version: number;
}

export class AbsencesResponse {
  @ListOf(() => AbsenceResponse) items: AbsenceResponse[];
}

export class BayClosureResponse {
  @Uuid() id: string;
  @Uuid() bayId: string;
  @Text() bayName: string;
  @Instant() startsAt: string;
  @Instant({ nullable: true, description: 'What is expected; null while nobody knows.' })
  endsAt: string | null;
  @Text() reason: string;
  @Text() recordedBy: string;
  @Instant() recordedAt: string;
  @Instant({ nullable: true, description: 'When it was put back into service before that.' })
  endedAt: string | null;
  @ListOf(() => PlannedInResponse, { description: 'Open work that is planned in it in that time.' })
  planned: PlannedInResponse[];
  @Whole({ min: 1 }) version: number;
}

export class BayClosuresResponse {
  @ListOf(() => BayClosureResponse) items: BayClosureResponse[];
}

export class ToolClosureResponse {
  @Uuid() id: string;
  @Uuid() toolId: string;
  @Text() toolName: string;
  @Whole({ min: 1, description: 'Which of the shop’s units of this tool.' }) unit: number;
  @Instant() startsAt: string;
  @Instant({ nullable: true, description: 'What is expected; null while nobody knows.' })
  endsAt: string | null;
  @Text() reason: string;
  @Text() recordedBy: string;
  @Instant() recordedAt: string;
  @Instant({ nullable: true, description: 'When it was put back into service before that.' })
  endedAt: string | null;
  @ListOf(() => PlannedInResponse, { description: 'Open work that is planned with it in that time.' })
  planned: PlannedInResponse[];
  @Whole({ min: 1 }) version: number;
}

export class ToolClosuresResponse {
  @ListOf(() => ToolClosureResponse) items: ToolClosureResponse[];
}

export class CalendarResponse {
  @Text({ description: 'The IANA zone of the shop.' }) timeZone: string;
  @ListOf(() => ClosedDayResponse) closedDays: ClosedDayResponse[];
  @ListOf(() => AbsenceResponse) absences: AbsenceResponse[];
  @ListOf(() => BayClosureResponse) bayClosures: BayClosureResponse[];
  @ListOf(() => ToolClosureResponse) toolClosures: ToolClosureResponse[];
}
