import { Flag, Instant, Uuid } from '../../../platform/http/fields.js';

export class AssignWorkOrderRequest {
  @Uuid() workOrderId: string;
  @Uuid() bayId: string;
  @Uuid() technicianId: string;
  @Instant() startsAt: string;
  @Instant({ description: 'Later than the start; the place is free again from this instant on.' })
  endsAt: string;
  @Flag({
    optional: true,
    description: 'The plan leaves it where it is; true when left out. False lets the plan move it.',
  })
  isPinned?: boolean;
}

export class MoveAssignmentRequest {
  @Uuid({ optional: true }) bayId?: string;
  @Uuid({ optional: true }) technicianId?: string;
  @Instant({ optional: true }) startsAt?: string;
  @Instant({ optional: true }) endsAt?: string;
  @Flag({
    optional: true,
    description:
      'Left out: what is moved is pinned. Alone it moves nothing: false gives the place to the plan, true takes it from it.',
  })
  isPinned?: boolean;
}
