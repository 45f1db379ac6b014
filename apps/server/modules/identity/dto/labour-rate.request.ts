import { CentsField, Flag, Text } from '../../../platform/http/fields.js';

export class AddLabourRateRequest {
  @Text({ max: 60 }) name: string;
  @CentsField({ description: 'For one hour.' }) centsPerHour: number;
  @Flag({ optional: true, description: 'Takes the place of the present default.' }) isDefault?: boolean;
}

export class ChangeLabourRateRequest {
  @Text({ max: 60, optional: true }) name?: string;
  @CentsField({ optional: true }) centsPerHour?: number;
  @Flag({ optional: true }) isDefault?: boolean;
}
