import { Day, Flag, Instant, Text, Whole } from '../../../platform/http/fields.js';

export class CalendarQuery {
  @Day({ description: 'The first day, by the shop’s clock.' }) from: string;
  @Day({ description: 'The last day, it included.' }) to: string;
}

export class CloseDayRequest {
  @Day({ description: 'By the shop’s clock.' }) day: string;
  @Text({ max: 80, description: 'Why, such as the name of the holiday.' }) name: string;
}

export class RecordAbsenceRequest {
  @Instant() startsAt: string;
  @Instant({ description: 'Later than the start; from this instant on they are back.' }) endsAt: string;
  @Text({ max: 200, optional: true, nullable: true, description: 'Everybody in the shop can read it.' })
  reason?: string | null;
}

export class ChangeAbsenceRequest {
  @Instant({ optional: true, description: 'Somebody who is back early is away until now.' }) endsAt?: string;
  @Text({ max: 200, optional: true, nullable: true }) reason?: string | null;
}

export class CloseBayRequest {
  @Instant({ optional: true, description: 'Left out: now.' }) startsAt?: string;
  @Instant({ optional: true, nullable: true, description: 'Null or left out while nobody knows.' })
  endsAt?: string | null;
  @Text({ max: 200 }) reason: string;
}

export class CloseToolRequest extends CloseBayRequest {
  @Whole({ min: 1, max: 1000, description: 'Which of the shop’s units of this tool.' }) unit: number;
}

export class ChangeClosureRequest {
  @Instant({ optional: true, nullable: true, description: 'What is expected now; null when nobody knows.' })
  endsAt?: string | null;
  @Text({ max: 200, optional: true }) reason?: string;
  @Flag({
    optional: true,
    description: 'True puts it back into service now; what has not begun is called off.',
  })
  isBackInService?: boolean;
}

/** The day in the path of a closed day. */
export class DayInPath {
  @Day() day: string;
}
