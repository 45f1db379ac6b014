import { Instant, Uuid } from '../../../platform/http/fields.js';

export class AssignWorkOrderRequest {
  @Uuid() workOrderId: string;
  @Uuid() bayId: string;
  @Uuid() technicianId: string;
  @Instant() startsAt: string;
  @Instant({ description: 'Later than the start; the place is free again from this instant on.' })
  endsAt: string;
}

export class MoveAssignmentRequest {
  @Uuid({ optional: true }) bayId?: string;
  @Uuid({ optional: true }) technicianId?: string;
  @Instant({ optional: true }) startsAt?: string;
  @Instant({ optional: true }) endsAt?: string;
}
