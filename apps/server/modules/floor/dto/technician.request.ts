import { Day, ListOf, Text, Whole } from '../../../platform/http/fields.js';

const DAY_END = 1440;

export class SkillEntry {
  @Text({ max: 60, example: 'brakes', description: 'The word that operations ask for.' }) skill: string;
  @Text({ max: 100, optional: true, nullable: true, description: 'Number or name of the certificate.' })
  certificate?: string | null;
  @Day({ optional: true, nullable: true, description: 'The last day on which the certificate is good.' })
  validUntil?: string | null;
}

export class SetSkillsRequest {
  @ListOf(() => SkillEntry, { max: 60 }) skills: SkillEntry[];
}

/** Minutes since midnight on the shop's clock. */
export class ShiftEntry {
  @Whole({ min: 1, max: 7, description: '1 is Monday, 7 is Sunday (ISO 8601).' }) weekday: number;
  @Whole({ max: DAY_END, unit: 'minutes since midnight' }) fromMinute: number;
  @Whole({ max: DAY_END, unit: 'minutes since midnight' }) toMinute: number;
  @Whole({ max: DAY_END, unit: 'minutes since midnight', optional: true, nullable: true })
  breakFromMinute?: number | null;
  @Whole({ max: DAY_END, unit: 'minutes since midnight', optional: true, nullable: true })
  breakToMinute?: number | null;
}

export class SetShiftsRequest {
  @ListOf(() => ShiftEntry, { max: 7 }) shifts: ShiftEntry[];
}
