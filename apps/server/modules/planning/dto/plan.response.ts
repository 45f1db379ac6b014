import { Flag, Instant, ListOf, Nested, OneOf, Text, Uuid, Whole } from '../../../platform/http/fields.js';
import { PLAN_MODES, type PlanMode } from '../loading/shop-plan.js';
import { PLAN_OUTCOMES, type PlanOutcome } from './plan-run.request.js';

export const PLAN_WAITS = [
  'now',
  'started',
  'pin',
  'parts',
  'vehicle',
  'work-order',
  'technician',
  'bay',
  'tool',
  'shift',
  'plan',
] as const;
export type PlanWaitKind = (typeof PLAN_WAITS)[number];

export const PLAN_MAKERS = ['plan', 'person'] as const;
export type PlanMaker = (typeof PLAN_MAKERS)[number];

const MANY = 5000;

export class PlanWaitResponse {
  @OneOf(PLAN_WAITS, {
    description:
      'What it waits for. now: nothing. started: it is under way. pin: a person laid its time down. shift: its people do not work before. plan: it keeps its planned time, or leaves room for more urgent work.',
  })
  for: PlanWaitKind;
  @Instant() until: string;
  @Text({ max: 1000, description: 'Why, in words.' }) words: string;
  @Text({ max: 1000, description: 'What would free it.' }) remedy: string;
  @Flag({ description: 'Nobody or nothing else would do.' }) isOnly: boolean;
}

export class PlanToolResponse {
  @Uuid() toolId: string;
  @Text() name: string;
  @Whole({ min: 1 }) unit: number;
}

export class PlanVehicleResponse {
  @Text({ description: 'Make, model and year.' }) label: string;
  @Text({ nullable: true }) plate: string | null;
}

export class PlanWorkResponse {
  @Uuid() workOrderId: string;
  @Whole({ min: 1 }) number: number;
  @Text() title: string;
  @Uuid() repairOrderId: string;
  @Nested(() => PlanVehicleResponse) vehicle: PlanVehicleResponse;
  @Uuid() assignmentId: string;
  @Whole({ min: 1, description: 'Of the assignment.' }) version: number;
  @Uuid() bayId: string;
  @Text() bayName: string;
  @Uuid() technicianId: string;
  @Text() technicianName: string;
  @ListOf(() => PlanToolResponse) tools: PlanToolResponse[];
  @Instant() startsAt: string;
  @Instant() endsAt: string;
  @Instant({ nullable: true, description: 'The vehicle is apart and keeps the bay so long after this work.' })
  bayUntil: string | null;
  @Instant({ description: 'By what is left of it, when it is under way; else the end of its place.' })
  expectedEndsAt: string;
  @Flag() isOnTheClock: boolean;
  @Flag({ description: 'The plan leaves it where it is.' }) isPinned: boolean;
  @OneOf(PLAN_MAKERS) madeBy: PlanMaker;
  @ListOf(() => PlanWaitResponse, {
    description: 'Why it starts no earlier, what it waits for longest first; the first decides.',
  })
  waits: PlanWaitResponse[];
}

export class PlanLateStepResponse {
  @Uuid({
    nullable: true,
    description: 'Null for work of a reservation, and for a vehicle that only stands there.',
  })
  workOrderId: string | null;
  @Text({ max: 400 }) workOrder: string;
  @Text({ max: 1000, description: 'What held it up, in words.' }) words: string;
  @Text({ max: 1000, nullable: true, description: 'What would free it.' }) remedy: string | null;
  @Instant({ nullable: true, description: 'Null where nobody knows, and where nothing is waited for.' })
  until: string | null;
}

export class PlanLateResponse {
  @Uuid() repairOrderId: string;
  @Whole({ min: 1 }) number: number;
  @Nested(() => PlanVehicleResponse) vehicle: PlanVehicleResponse;
  @Instant() promisedAt: string;
  @Instant({ nullable: true, description: 'Null where some of its work has no place.' }) readyAt:
    string | null;
  @Whole({ description: 'At least so many, where the vehicle is not ready by any time that is known.' })
  minutesLate: number;
  @ListOf(() => PlanLateStepResponse, {
    description: 'From its last work back, each with what held it up, which the next one is the work of.',
  })
  steps: PlanLateStepResponse[];
}

export class PlanNotPlannedResponse {
  @Uuid() workOrderId: string;
  @Whole({ min: 1 }) number: number;
  @Text() title: string;
  @Uuid() repairOrderId: string;
  @Text({ max: 1000 }) why: string;
}

/** A part or sublet work that should have come: somebody asks, and tells a new time. */
export class PlanOverduePartResponse {
  @Uuid({ description: 'A new time is told of this: POST /line-items/{id}/expectations.' })
  lineItemId: string;
  @OneOf(['part', 'sublet']) kind: 'part' | 'sublet';
  @Text() name: string;
  @Instant({ description: 'When it was expected.' }) since: string;
  @Uuid() workOrderId: string;
  @Whole({ min: 1 }) number: number;
  @Text() title: string;
  @Uuid() repairOrderId: string;
  @Nested(() => PlanVehicleResponse) vehicle: PlanVehicleResponse;
}

export class PlanNoteResponse {
  @OneOf(['work-order', 'technician', 'bay', 'shop']) about: 'work-order' | 'technician' | 'bay' | 'shop';
  @Uuid({ nullable: true }) id: string | null;
  @Text({ max: 1000 }) words: string;
}

export class PlanLastRunResponse {
  @Uuid() id: string;
  @Instant() at: string;
  @OneOf(PLAN_OUTCOMES) outcome: PlanOutcome;
}

export class PlanResponse {
  @Text({ description: 'IANA zone of the shop.' }) timeZone: string;
  @Instant({ description: 'The minute as of which it is told.' }) now: string;
  @OneOf(PLAN_MODES) mode: PlanMode;
  @ListOf(() => PlanWorkResponse, { max: MANY, description: 'By the times at which they start.' })
  planned: PlanWorkResponse[];
  @ListOf(() => PlanLateResponse, {
    max: MANY,
    description:
      'Promises that do not hold by the plan, the latest first. What was not promised is not late.',
  })
  late: PlanLateResponse[];
  @ListOf(() => PlanNotPlannedResponse, {
    max: MANY,
    description: 'Open work without a place, with the reason.',
  })
  notPlanned: PlanNotPlannedResponse[];
  @ListOf(() => PlanOverduePartResponse, {
    max: MANY,
    description:
      'What should have come, the longest overdue first. For a day its work stays in the plan as if it came any minute; then it has no place before a new time is told.',
  })
  overdueParts: PlanOverduePartResponse[];
  @Nested(() => PlanLastRunResponse, {
    nullable: true,
    description: 'The last look at the plan that is over.',
  })
  lastRun: PlanLastRunResponse | null;
  @Uuid({ nullable: true, description: 'The run whose proposal waits for a decision.' })
  openProposalId: string | null;
  @ListOf(() => PlanNoteResponse, { max: MANY }) notes: PlanNoteResponse[];
}
