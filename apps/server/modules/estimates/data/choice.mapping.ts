import type { Breakdown, ChoicePrice } from '#libs/estimate';
import { cents } from '#libs/kernel';
import { figuresResponse, type FiguresResponse } from '../dto/figures.response.js';
import type { ChoiceResponse, ChosenLineResponse } from '../dto/revision.response.js';
import type { Offer } from '../queries/offer.query.js';
import type { LatestDecision } from '../queries/standing-decisions.query.js';

/** The figures of a line whose price is fixed, as they were agreed to. */
export function agreedFigures(decision: LatestDecision): FiguresResponse {
  return {
    hundredths: decision.shownHundredths,
    labourCents: decision.shownLabourCents,
    // What was agreed to is kept as one figure with the core deposits in it.
    partsCents: decision.shownPartsCents,
    coreCents: 0,
    suppliesCents: decision.shownSuppliesCents,
    taxCents: decision.shownTaxCents,
    taxes: [],
    discountCents: decision.response.shownDiscountCents,
    totalCents: decision.shownTotalCents,
  };
}

/** What doing the chosen lines together saves against one by one. */
export function savedCents(price: ChoicePrice): number {
  const chosen = price.lines.filter((line) => line.chosen);
  const alone = chosen.reduce((sum, line) => sum + line.aloneTotalCents, 0);
  return cents(alone - price.totals.totalCents);
}

export function choiceResponse(
  offer: Offer,
  price: ChoicePrice,
  breakdownOf: (tree: Breakdown) => Breakdown,
): ChoiceResponse {
  const open = price.lines.map((line): ChosenLineResponse => ({
    lineId: line.id,
    chosen: line.chosen,
    workBegun: false,
    alone: figuresResponse(line.alone),
    figures: line.chosen ? figuresResponse(line) : null,
    ifAddedCents: line.chosen ? null : line.ifAddedCents,
    breakdown: line.chosen ? breakdownOf(line.breakdown) : null,
  }));
  const begun = [...offer.begun].flatMap((lineId): ChosenLineResponse[] => {
    const decision = offer.standing.get(lineId);
    if (decision === undefined) return [];
    const figures = agreedFigures(decision);
    return [
      { lineId, chosen: true, workBegun: true, alone: figures, figures, ifAddedCents: null, breakdown: null },
    ];
  });
  return {
    revisionId: offer.revisionId,
    shownSha256: offer.shownSha256,
    chosen: price.lines.filter((line) => line.chosen).map(({ id }) => id),
    lines: [...open, ...begun],
    totals: figuresResponse(price.totals),
    savedCents: savedCents(price),
    breakdown: breakdownOf(price.totals.breakdown),
  };
}
