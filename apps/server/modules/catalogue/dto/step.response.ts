import { Text, Uuid, Whole } from '../../../platform/http/fields.js';

export class StepResponse {
  @Uuid() id: string;
  @Text() code: string;
  @Text() name: string;
  @Whole({ min: 1, description: 'Hundredths of an hour.' }) hundredths: number;
  @Uuid({ nullable: true, description: 'A labour rate of its own; null: that of the line.' })
  rateId: string | null;
  @Whole({ min: 1 }) version: number;
}
