import { CentsField, Flag, ListOf, Text, Uuid, Whole } from '../../../platform/http/fields.js';

export class LabourRateResponse {
  @Uuid() id: string;
  @Text() name: string;
  @CentsField() centsPerHour: number;
  @Flag() isDefault: boolean;
  @Whole({ min: 1 }) version: number;
}

export class LabourRatesResponse {
  @ListOf(() => LabourRateResponse) items: LabourRateResponse[];
}
