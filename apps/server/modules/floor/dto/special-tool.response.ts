import { Text, Uuid, Whole } from '../../../platform/http/fields.js';

export class SpecialToolResponse {
  @Uuid() id: string;
  @Text() name: string;
  @Whole({ min: 1 }) units: number;
  @Whole({ min: 1 }) version: number;
}
