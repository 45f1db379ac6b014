import { Instant, Text, Uuid } from '../../../platform/http/fields.js';

export class ClaimResponse {
  @Uuid() id: string;
  @Uuid() workOrderId: string;
  @Uuid({ description: 'The one who holds the work order.' }) technicianId: string;
  @Text() displayName: string;
  @Instant() claimedAt: string;
}
