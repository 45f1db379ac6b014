import { WORK_ORDER_STATES, type WorkOrderState } from '#libs/workflow';
import {
  Flag,
  Instant,
  ListOf,
  Nested,
  OneOf,
  Text,
  TextList,
  Uuid,
  Whole,
} from '../../../platform/http/fields.js';
import { ClaimResponse } from './claim.response.js';
import { HoldResponse } from './hold.response.js';

export class VehicleLabelResponse {
  @Text({ description: 'Make, model and year.' }) label: string;
  @Text({ nullable: true }) plate: string | null;
}

export class WorkOrderPlaceResponse {
  @Uuid() id: string;
  @Whole({ min: 1 }) version: number;
  @Uuid() bayId: string;
  @Uuid() technicianId: string;
  @Text() technicianName: string;
  @Instant() startsAt: string;
  @Instant() endsAt: string;
}

export class EarlierWorkOrderResponse {
  @Uuid() id: string;
  @Whole({ min: 1 }) number: number;
  @Text() title: string;
  @Flag({ description: 'It is done or withdrawn and holds nothing up.' }) finished: boolean;
}

export class WorkOrderToolResponse {
  @Uuid() id: string;
  @Text() name: string;
}

export class WorkOrderResponse {
  @Uuid() id: string;
  @Whole({ min: 1 }) number: number;
  @Text() title: string;
  @OneOf(WORK_ORDER_STATES) state: WorkOrderState;
  @ListOf(() => HoldResponse) holds: HoldResponse[];
  @Flag({ description: 'Nothing holds it, and it is neither under way nor done.' }) canStart: boolean;
  @Uuid() repairOrderId: string;
  @Whole({ min: 1 }) repairOrderNumber: number;
  @Nested(() => VehicleLabelResponse) vehicle: VehicleLabelResponse;
  @Uuid() lineId: string;
  @Uuid({ description: 'The decision by which the owner agreed to it.' }) decisionId: string;
  @Whole({ unit: 'hundredths of an hour' }) bookHundredths: number;
  @Whole({ unit: 'seconds' }) clockedSeconds: number;
  @Flag() needsLift: boolean;
  @TextList({ description: 'Kinds of bay in which it may be done; empty when any will do.' })
  bayKinds: string[];
  @TextList() skills: string[];
  @ListOf(() => WorkOrderToolResponse) tools: WorkOrderToolResponse[];
  @TextList({
    description: 'Read before you start. The vehicle maker’s procedure and local codes come first.',
  })
  cautions: string[];
  @Flag({ description: 'The vehicle has a finding that says it must not be driven.' }) unsafe: boolean;
  @ListOf(() => EarlierWorkOrderResponse) earlier: EarlierWorkOrderResponse[];
  @Nested(() => ClaimResponse, { nullable: true }) claim: ClaimResponse | null;
  @Nested(() => WorkOrderPlaceResponse, { nullable: true }) assignment: WorkOrderPlaceResponse | null;
  @Instant({ nullable: true }) promisedAt: string | null;
  @Instant() releasedAt: string;
  @Instant({ nullable: true }) withdrawnAt: string | null;
  @Instant({ nullable: true }) finishedAt: string | null;
  @Uuid({ nullable: true }) finishedBy: string | null;
  @Instant({ nullable: true }) checkedAt: string | null;
  @Uuid({ nullable: true }) checkedBy: string | null;
  @Text({ nullable: true }) checkNote: string | null;
  @Whole({ min: 1 }) version: number;
}
