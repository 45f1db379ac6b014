import { Flag, ListOf, Text, Uuid, Whole } from '../../../platform/http/fields.js';

export class SkillResponse {
  @Text() skill: string;
  @Text({ nullable: true }) certificate: string | null;
  @Text({ nullable: true }) validUntil: string | null;
}

export class ShiftResponse {
  @Whole({ min: 1, max: 7 }) weekday: number;
  @Whole() fromMinute: number;
  @Whole() toMinute: number;
  @Whole({ nullable: true }) breakFromMinute: number | null;
  @Whole({ nullable: true }) breakToMinute: number | null;
}

export class SkillsResponse {
  @ListOf(() => SkillResponse) skills: SkillResponse[];
}

export class ShiftsResponse {
  @ListOf(() => ShiftResponse) shifts: ShiftResponse[];
}

export class TechnicianResponse {
  @Uuid() id: string;
  @Text() displayName: string;
  @Flag() isActive: boolean;
  @ListOf(() => SkillResponse) skills: SkillResponse[];
  @ListOf(() => ShiftResponse) shifts: ShiftResponse[];
}
