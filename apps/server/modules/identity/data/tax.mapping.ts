import type { TaxResponse } from '../dto/tax.response.js';
import type { TaxRow } from './tax.entity.js';

/** What a tax can fall on: the kinds of charge on an estimate. */
export const TAXABLE = ['labour', 'part', 'fluid', 'sublet', 'fee', 'supplies'] as const;
export type Taxable = (typeof TAXABLE)[number];

export function isTaxable(value: string): value is Taxable {
  return TAXABLE.some((kind) => kind === value);
}

export function taxResponse(row: TaxRow): TaxResponse {
  return {
    id: row.id,
    name: row.name,
    ratePpm: row.ratePpm,
    appliesTo: row.appliesTo.filter(isTaxable),
    version: row.version,
  };
}
