import { WORK_ORDER_STATES, type WorkOrderState } from '#libs/workflow';
import { Flag, OneOf, Text, UuidList } from '../../../platform/http/fields.js';
import { PageQuery } from '../../../platform/http/pages.js';

export class WorkOrdersQuery extends PageQuery {
  @OneOf(WORK_ORDER_STATES, { optional: true }) state?: WorkOrderState;
}

export class GiveBackClaimRequest {
  @Text({ max: 500, optional: true, description: 'Needed when a manager does it for somebody else.' })
  reason?: string;
}

export class CheckWorkOrderRequest {
  @Flag({ description: 'False sends it back to its holder.' }) passed: boolean;
  @Text({
    max: 2000,
    optional: true,
    nullable: true,
    description: 'Needed when it did not pass, and when somebody checks their own work.',
  })
  note?: string | null;
}

export class SetEarlierWorkOrdersRequest {
  @UuidList({ max: 100, description: 'All that must be finished before this one; of the same repair order.' })
  earlierIds: string[];
}
