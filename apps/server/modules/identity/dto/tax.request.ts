import { Text, TextList, Whole } from '../../../platform/http/fields.js';
import { TAXABLE, type Taxable } from '../data/tax.mapping.js';

export class AddTaxRequest {
  @Text({ max: 60 }) name: string;
  @Whole({ max: 1_000_000, unit: 'millionths', description: '6.5 % is 65000.' }) ratePpm: number;
  @TextList({ values: TAXABLE, max: 6 }) appliesTo: Taxable[];
}

export class ChangeTaxRequest {
  @Text({ max: 60, optional: true }) name?: string;
  @Whole({ max: 1_000_000, unit: 'millionths', optional: true }) ratePpm?: number;
  @TextList({
    values: TAXABLE,
    max: 6,
    optional: true,
    description: 'Empty: the tax falls on nothing any more.',
  })
  appliesTo?: Taxable[];
}
