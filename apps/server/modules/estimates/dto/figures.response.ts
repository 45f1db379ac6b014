import type { Figures } from '#libs/estimate';
import { CentsField, ListOf, Text, Whole } from '../../../platform/http/fields.js';

export class TaxFigureResponse {
  @Text() name: string;
  @CentsField() cents: number;
}

export class FiguresResponse {
  @Whole({ unit: 'hundredths of an hour' }) hundredths: number;
  @CentsField() labourCents: number;
  @CentsField({ description: 'Parts, fluids, sublet and fees, without core deposits.' }) partsCents: number;
  @CentsField({ description: 'Deposits that are paid back when the old part is returned.' })
  coreCents: number;
  @CentsField() suppliesCents: number;
  @CentsField() taxCents: number;
  @ListOf(() => TaxFigureResponse) taxes: TaxFigureResponse[];
  @CentsField({
    description: 'What discounts and no-charge labour took off; the other figures are net of it.',
  })
  discountCents: number;
  @CentsField({ description: 'labour + parts + core deposits + supplies + tax.' }) totalCents: number;
}

export function figuresResponse(figures: Figures): FiguresResponse {
  return {
    hundredths: figures.hundredths,
    labourCents: figures.labourCents,
    partsCents: figures.partsCents,
    coreCents: figures.coreCents,
    suppliesCents: figures.suppliesCents,
    taxCents: figures.taxCents,
    taxes: figures.taxes.map(({ name, cents }) => ({ name, cents })),
    discountCents: figures.discountCents,
    totalCents: figures.totalCents,
  };
}
