import { cents } from '#libs/kernel';
import type { BookHundredths, Cents } from '#libs/kernel';
import type { Figures } from '#libs/estimate';

/** The figures of a line as they stood on the page; total = labour + parts + supplies + tax. */
export interface ShownFigures {
  readonly shownHundredths: BookHundredths;
  readonly shownLabourCents: Cents;
  /** Parts, fluids, sublet and fees, with core deposits: all that is not labour is one figure on the page. */
  readonly shownPartsCents: Cents;
  readonly shownSuppliesCents: Cents;
  readonly shownTaxCents: Cents;
  readonly shownTotalCents: Cents;
}

export function shownFigures(figures: Figures): ShownFigures {
  return {
    shownHundredths: figures.hundredths,
    shownLabourCents: figures.labourCents,
    shownPartsCents: cents(figures.partsCents + figures.coreCents),
    shownSuppliesCents: figures.suppliesCents,
    shownTaxCents: figures.taxCents,
    shownTotalCents: figures.totalCents,
  };
}

export function sameFigures(one: ShownFigures, other: ShownFigures): boolean {
  return (
    one.shownHundredths === other.shownHundredths &&
    one.shownLabourCents === other.shownLabourCents &&
    one.shownPartsCents === other.shownPartsCents &&
    one.shownSuppliesCents === other.shownSuppliesCents &&
    one.shownTaxCents === other.shownTaxCents &&
    one.shownTotalCents === other.shownTotalCents
  );
}
