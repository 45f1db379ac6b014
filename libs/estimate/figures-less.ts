import { bookHundredths, cents } from '#libs/kernel';
import type { Figures } from './choice-price.js';

export const NO_FIGURES: Figures = {
  hundredths: bookHundredths(0),
  labourCents: cents(0),
  partsCents: cents(0),
  coreCents: cents(0),
  suppliesCents: cents(0),
  taxCents: cents(0),
  taxes: [],
  discountCents: cents(0),
  totalCents: cents(0),
};

/** Every figure of `from` less that of `less`; taxes by name, and one that stands on one side only counts as nothing on the other. */
export function figuresLess(from: Figures, less: Figures): Figures {
  const names = [...new Set([...from.taxes, ...less.taxes].map(({ name }) => name))];
  const taxIn = (figures: Figures, name: string): number =>
    figures.taxes.find((tax) => tax.name === name)?.cents ?? 0;
  return {
    hundredths: bookHundredths(from.hundredths - less.hundredths),
    labourCents: cents(from.labourCents - less.labourCents),
    partsCents: cents(from.partsCents - less.partsCents),
    coreCents: cents(from.coreCents - less.coreCents),
    suppliesCents: cents(from.suppliesCents - less.suppliesCents),
    taxCents: cents(from.taxCents - less.taxCents),
    taxes: names.map((name) => ({ name, cents: cents(taxIn(from, name) - taxIn(less, name)) })),
    discountCents: cents(from.discountCents - less.discountCents),
    totalCents: cents(from.totalCents - less.totalCents),
  };
}
