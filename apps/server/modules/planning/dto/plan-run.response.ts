import {
  AnyObject,
  Flag,
  Instant,
  ListOf,
  Nested,
  OneOf,
  Text,
  Uuid,
  Whole,
} from '../../../platform/http/fields.js';
import { PLAN_OUTCOMES, type PlanOutcome } from './plan-run.request.js';

export const PLAN_DECISIONS = ['accepted', 'rejected', 'superseded'] as const;
export type PlanDecision = (typeof PLAN_DECISIONS)[number];
export const PLAN_CHANGE_KINDS = ['new', 'changed', 'taken-out'] as const;
export type PlanChangeKind = (typeof PLAN_CHANGE_KINDS)[number];

export class PlanCauseResponse {
  @Text({
    description:
      'What it is about: assignment, bay, calendar (days of the shop), claim, clock, decision, part, plan-settings, repair-order, reservation, technician, tool, work-order; or asked, overrun, late-start, part-overdue, proposal-old, reservation-over.',
  })
  kind: string;
  @Text({ max: 300, description: 'What happened, in words.' }) words: string;
  @Instant() at: string;
  @AnyObject({ description: 'The records that it is about, by the names of live events.' })
  subjects: Record<string, string>;
}

export class PlanRunPersonResponse {
  @Uuid() id: string;
  @Text() displayName: string;
}

export class PlanCostResponse {
  @Whole({ description: 'Work without a place.' }) unplaced: number;
  @Whole({ description: 'Work of the frozen time that lost its place.' }) frozenMoved: number;
  @Whole({ description: 'Minutes after the promised times, over all repair orders.' }) lateness: number;
  @Whole({ description: 'What the changes count, in minutes of lateness (see the settings).' })
  change: number;
  @Whole({ description: 'Minutes in which a vehicle that is apart waits in a bay.' }) blocked: number;
}

export class PlanRunPlaceResponse {
  @Instant() startsAt: string;
  @Instant() endsAt: string;
  @Uuid({ nullable: true }) bayId: string | null;
  @Text({ nullable: true }) bayName: string | null;
  @Uuid({ nullable: true }) technicianId: string | null;
  @Text({ nullable: true }) technicianName: string | null;
}

export class PlanChangeResponse {
  @OneOf(PLAN_CHANGE_KINDS) kind: PlanChangeKind;
  @Uuid({ nullable: true, description: 'Null for work of a reservation.' }) workOrderId: string | null;
  @Whole({ min: 1, nullable: true }) workOrderNumber: number | null;
  @Text({ description: 'What is done.' }) title: string;
  @Uuid({ nullable: true }) repairOrderId: string | null;
  @Whole({ min: 1, nullable: true }) repairOrderNumber: number | null;
  @Text({ nullable: true }) vehicleLabel: string | null;
  @Text({ nullable: true }) plate: string | null;
  @Nested(() => PlanRunPlaceResponse, { nullable: true, description: 'Null for what is new.' })
  was: PlanRunPlaceResponse | null;
  @Nested(() => PlanRunPlaceResponse, { nullable: true, description: 'Null for what is taken out.' })
  is: PlanRunPlaceResponse | null;
  @Whole({ min: -2_000_000_000, description: 'Below zero: sooner. 0 for what is new or taken out.' })
  minutesLater: number;
  @Flag() technicianChanged: boolean;
  @Flag() bayChanged: boolean;
  @Text({ max: 1000 }) why: string;
}

export class PlanPromiseResponse {
  @Uuid() repairOrderId: string;
  @Whole({ min: 1, nullable: true }) repairOrderNumber: number | null;
  @Text({ nullable: true }) vehicleLabel: string | null;
  @Instant() promisedAt: string;
  @Instant({
    nullable: true,
    description: 'When it is ready by this plan; null where some of its work has no place.',
  })
  readyAt: string | null;
  @Whole({ description: '0 for a promise that is kept.' }) minutesLate: number;
}

export class PlanPromisesResponse {
  @ListOf(() => PlanPromiseResponse, { description: 'Held after the run before and do not any more.' })
  broken: PlanPromiseResponse[];
  @ListOf(() => PlanPromiseResponse, { description: 'Did not hold after the run before and do again.' })
  kept: PlanPromiseResponse[];
}

export class PlanRunSummaryResponse {
  @Uuid() id: string;
  @ListOf(() => PlanCauseResponse, { description: 'At most 40, the oldest first.' })
  causes: PlanCauseResponse[];
  @Flag({ description: 'It looked longer for a better plan.' }) improve: boolean;
  @Instant() askedAt: string;
  @Nested(() => PlanRunPersonResponse, { nullable: true, description: 'Null where an event asked for it.' })
  askedBy: PlanRunPersonResponse | null;
  @Instant({ nullable: true }) endedAt: string | null;
  @OneOf(PLAN_OUTCOMES, {
    nullable: true,
    description:
      'Null: still to come. unchanged: nothing better was found. applied: the plan was changed. proposed: a person decides. outdated: meanwhile something happened, and another run followed. failed: see `detail`.',
  })
  outcome: PlanOutcome | null;
  @Text({ nullable: true, max: 1000 }) detail: string | null;
  @Whole({ description: 'How many work orders are elsewhere in it.' }) changeCount: number;
  @Nested(() => PlanPromisesResponse) promises: PlanPromisesResponse;
  @OneOf(PLAN_DECISIONS, {
    nullable: true,
    description: 'Of a proposal: null while it is open; superseded by a later one.',
  })
  decision: PlanDecision | null;
  @Instant({ nullable: true }) decidedAt: string | null;
  @Nested(() => PlanRunPersonResponse, { nullable: true }) decidedBy: PlanRunPersonResponse | null;
}

export class PlanRunResponse extends PlanRunSummaryResponse {
  @ListOf(() => PlanChangeResponse, { max: 5000 }) changes: PlanChangeResponse[];
  @Nested(() => PlanCostResponse, { nullable: true, description: 'What the plan cost as it stood.' })
  costBefore: PlanCostResponse | null;
  @Nested(() => PlanCostResponse, { nullable: true }) cost: PlanCostResponse | null;
  @Whole({ nullable: true, description: 'No plan has less lateness.' }) latenessBound: number | null;
  @Whole({ nullable: true, unit: 'milliseconds' }) solveMs: number | null;
}

export class WorkOrderPlanningResponse {
  @Uuid() workOrderId: string;
  @Flag() leftOut: boolean;
  @Instant({ nullable: true }) since: string | null;
  @Nested(() => PlanRunPersonResponse, { nullable: true, description: 'Who took it out.' })
  by: PlanRunPersonResponse | null;
}
