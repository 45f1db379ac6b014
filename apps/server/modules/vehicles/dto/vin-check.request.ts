import { QueryWhole, Text } from '../../../platform/http/fields.js';

export class VinCheckQuery {
  @Text({ max: 40 }) vin: string;
  @QueryWhole({ min: 1885, max: 2100, optional: true }) modelYear?: number;
}
