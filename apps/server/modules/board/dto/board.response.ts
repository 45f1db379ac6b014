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
import { HoldResponse, VehicleLabelResponse, WorkOrderPlaceResponse } from '../../work-orders/index.js';

export const TICKET_STATES = [
  'released',
  'claimed',
  'on-the-clock',
  'paused',
  'finished',
  'checked',
] as const;
export type TicketState = (typeof TICKET_STATES)[number];

export class OnTheClockResponse {
  @Uuid() technicianId: string;
  @Text() displayName: string;
  @Uuid() workOrderId: string;
}

export class BoardBayResponse {
  @Uuid() id: string;
  @Whole({ min: 1 }) number: number;
  @Text() name: string;
  @OneOf(['lift', 'flat', 'alignment']) kind: 'lift' | 'flat' | 'alignment';
  @Text({ nullable: true }) liftKind: string | null;
  @Whole({ nullable: true, unit: 'kg' }) capacityKg: number | null;
  @Text({ nullable: true }) outOfServiceReason: string | null;
  @ListOf(() => OnTheClockResponse, { description: 'Who is on the clock on work that has its place here.' })
  clockedOn: OnTheClockResponse[];
}

export class BoardTechnicianResponse {
  @Uuid() id: string;
  @Text() displayName: string;
  @TextList({ description: 'Without those whose certificate has run out.' }) skills: string[];
}

export class TicketClaimResponse {
  @Uuid() technicianId: string;
  @Text() displayName: string;
  @Instant() claimedAt: string;
}

export class TicketResponse {
  @Uuid() workOrderId: string;
  @Whole({ min: 1 }) workOrderNumber: number;
  @Uuid() repairOrderId: string;
  @Whole({ min: 1 }) repairOrderNumber: number;
  @Text() title: string;
  @Nested(() => VehicleLabelResponse) vehicle: VehicleLabelResponse;
  @Whole({ unit: 'hundredths of an hour' }) bookHundredths: number;
  @Whole({ unit: 'seconds', description: 'Up to `now` where the clock runs.' }) clockedSeconds: number;
  @OneOf(TICKET_STATES) state: TicketState;
  @ListOf(() => HoldResponse) holds: HoldResponse[];
  @Flag({ description: 'Nothing holds it, and it is neither under way nor done.' }) canStart: boolean;
  @Nested(() => TicketClaimResponse, { nullable: true }) claim: TicketClaimResponse | null;
  @Nested(() => WorkOrderPlaceResponse, { nullable: true }) assignment: WorkOrderPlaceResponse | null;
  @Flag({ description: 'The vehicle has a finding that says it must not be driven.' }) unsafe: boolean;
  @TextList({
    description: 'Read before you start. The vehicle maker’s procedure and local codes come first.',
  })
  cautions: string[];
  @Instant({ nullable: true }) promisedAt: string | null;
}

export class ReservedPlaceResponse {
  @Uuid() reservationId: string;
  @Whole({ min: 1 }) reservationNumber: number;
  @OneOf(['held', 'taken'], { description: 'held: somebody is on the phone. taken: a car is to come.' })
  state: 'held' | 'taken';
  @Text() title: string;
  @Uuid() bayId: string;
  @Uuid() technicianId: string;
  @Text() technicianName: string;
  @Instant() startsAt: string;
  @Instant() endsAt: string;
  @Instant({ nullable: true, description: 'While it is held: until then.' }) until: string | null;
  @Text({ max: 1000, description: 'For whom or by whom it is kept, and what for.' }) words: string;
}

/** A bay will be out of service. */
export class BoardClosureResponse {
  @Uuid() closureId: string;
  @Uuid() bayId: string;
  @Instant() startsAt: string;
  @Instant({ nullable: true, description: 'Null: nobody knows yet.' }) endsAt: string | null;
  @Text({ max: 1000 }) words: string;
}

export class BoardResponse {
  @Text({ description: 'The day shown, YYYY-MM-DD.' }) day: string;
  @Text({ description: 'IANA zone of the shop.' }) timeZone: string;
  @Instant() now: string;
  @Instant({ description: 'When the shop opens on that day.' }) dayStartsAt: string;
  @Instant({ description: 'When it closes.' }) dayEndsAt: string;
  @Text({ description: 'Everything up to this live event is in here; ask /live for what comes after it.' })
  lastEventId: string;
  @ListOf(() => BoardBayResponse) bays: BoardBayResponse[];
  @ListOf(() => BoardTechnicianResponse) technicians: BoardTechnicianResponse[];
  @ListOf(() => TicketResponse, {
    description: 'What has a place on that day, and everything that is not checked yet.',
  })
  tickets: TicketResponse[];
  @ListOf(() => ReservedPlaceResponse, {
    description: 'Places on that day that are kept for cars that may come.',
  })
  reserved: ReservedPlaceResponse[];
  @ListOf(() => BoardClosureResponse, {
    description:
      'Times on that day in which a bay will be out of service; what is out now stands with its bay.',
  })
  closures: BoardClosureResponse[];
}
