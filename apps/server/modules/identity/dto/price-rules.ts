import { MATRIX_METHODS, type MatrixMethod } from '#libs/money';
import { SUPPLIES_BASES, type SuppliesBase } from '#libs/estimate';
import { CentsField, Flag, ListOf, Nested, OneOf, Text, Whole } from '../../../platform/http/fields.js';

export class PriceBandEntry {
  @Whole({
    max: 100_000_000,
    unit: 'cents',
    description: 'The cost at which the band starts; 0 for the first.',
  })
  fromCents: number;
  @Whole({ min: 1, max: 1_000_000_000, unit: 'millionths', description: '2.2 times the cost is 2200000.' })
  multiplierPpm: number;
}

export class PriceMatrixEntry {
  @OneOf(MATRIX_METHODS, {
    description:
      'marginal: each part of the cost by its own band, so that a dearer part never sells for less; whole-band: all of the cost by the band that it lies in.',
  })
  method: MatrixMethod;
  @ListOf(() => PriceBandEntry, { max: 30 }) bands: PriceBandEntry[];
}

export class PriceRulesRequest {
  @Nested(() => PriceMatrixEntry, { nullable: true, description: 'Prices of parts by their cost.' })
  matrix: PriceMatrixEntry | null;
  @Whole({ max: 999_000, nullable: true, unit: 'millionths of the price' }) defaultMarginPpm: number | null;
  @Whole({ max: 10_000_000, unit: 'millionths of the cost', description: 'On work of other firms.' })
  subletMarkupPpm: number;
  @OneOf(SUPPLIES_BASES, { description: 'What shop supplies are a share of.' }) suppliesBase: SuppliesBase;
  @Flag({
    description: 'All taxes are rounded once together instead of each by itself. Local law decides.',
  })
  taxesCombined: boolean;
}

export class PriceWarningResponse {
  @OneOf(['matrix-inverts', 'sells-below-cost']) code: string;
  @Text({ max: 500 }) detail: string;
  @CentsField({ description: 'The start of the band.' }) fromCents: number;
  @CentsField({ nullable: true, description: 'The last cost at which a cheaper part sells for more.' })
  toCents: number | null;
  @CentsField({ nullable: true, description: 'By how much the price falls there.' }) dropCents: number | null;
}

export class PriceRulesResponse extends PriceRulesRequest {
  @ListOf(() => PriceWarningResponse, {
    description: 'What the shop should know; nothing is refused for it.',
  })
  warnings: PriceWarningResponse[];
  @Whole({ min: 1, description: 'Of the shop and its settings.' }) version: number;
}
