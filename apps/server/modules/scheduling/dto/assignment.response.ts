import { Flag, Instant, ListOf, OneOf, Text, Uuid, Whole } from '../../../platform/http/fields.js';

export const ASSIGNMENT_WARNINGS = ['outside-shift', 'vehicle-elsewhere'] as const;

export class AssignedToolResponse {
  @Uuid() toolId: string;
  @Text() name: string;
  @Whole({ min: 1, description: 'Which of the shop’s units of this tool.' }) unit: number;
}

export class AssignmentWarningResponse {
  @OneOf(ASSIGNMENT_WARNINGS) code: (typeof ASSIGNMENT_WARNINGS)[number];
  @Text({ max: 500 }) detail: string;
}

export class AssignmentResponse {
  @Uuid() id: string;
  @Uuid() workOrderId: string;
  @Whole({ min: 1 }) workOrderNumber: number;
  @Uuid() bayId: string;
  @Uuid() technicianId: string;
  @Text() technicianName: string;
  @Instant() startsAt: string;
  @Instant() endsAt: string;
  @Flag({ description: 'A person laid it down, so the plan leaves it where it is.' }) isPinned: boolean;
  @ListOf(() => AssignedToolResponse) tools: AssignedToolResponse[];
  @ListOf(() => AssignmentWarningResponse, { description: 'Said, and not forbidden.' })
  warnings: AssignmentWarningResponse[];
  @Whole({ min: 1 }) version: number;
}
