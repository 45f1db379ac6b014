import { ListOf, Text, TextList, Uuid, Whole } from '../../../platform/http/fields.js';
import { TAXABLE, type Taxable } from '../data/tax.mapping.js';

export class TaxResponse {
  @Uuid() id: string;
  @Text() name: string;
  @Whole({ unit: 'millionths' }) ratePpm: number;
  @TextList({ values: TAXABLE }) appliesTo: Taxable[];
  @Whole({ min: 1 }) version: number;
}

export class TaxesResponse {
  @ListOf(() => TaxResponse) items: TaxResponse[];
}
