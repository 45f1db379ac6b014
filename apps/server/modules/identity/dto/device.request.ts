import { Text, Uuid } from '../../../platform/http/fields.js';

export class EnrolDeviceRequest {
  @Text({ max: 60, description: 'Such as the bay where it hangs.' }) name: string;
  @Uuid({ optional: true, nullable: true }) bayId?: string | null;
}
