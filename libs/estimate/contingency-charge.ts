import { cents, fail, ok } from '#libs/kernel';
import type { BookHundredths, Cents, Result } from '#libs/kernel';
import type { AlreadyAgreed } from './already-agreed.js';
import type { Breakdown } from './breakdown.js';
import type { ChoiceFault } from './check-choice.js';
import type { Figures } from './choice-price.js';
import { cutToCap } from './cut-to-cap.js';
import type { EstimateItem, EstimateLine } from './estimate-line.js';
import { itemsOfLine } from './items-of-line.js';
import { priceChoice } from './price-choice.js';
import type { PricingPolicy } from './pricing-policy.js';

/** A contingency that has happened, with the extra hours and items that it really took. */
export interface ContingencyToCharge {
  readonly id: string;
  /** Its extra hours are sold as the line's are: at its rate, or not at all where its labour is not charged. */
  readonly line: Pick<EstimateLine, 'rateId' | 'rateCentsPerHour' | 'noCharge'>;
  readonly hundredths: BookHundredths;
  readonly items: readonly EstimateItem[];
  /** The most that was agreed to, tax included. */
  readonly capCents: Cents;
  /** All that was agreed to before, its own line included, so that floor and cap of supplies hold once. */
  readonly given: AlreadyAgreed;
  /** Of the revision that offered it. */
  readonly policy: PricingPolicy;
}

export interface ContingencyCharge {
  /** What is charged: total = labour + parts + core + supplies + tax, and never above the cap. */
  readonly figures: Figures;
  /** What it would come to without a cap. */
  readonly uncappedCents: Cents;
  /** What of it the supplies were a share of; nothing where the cap has cut them, so that no later line makes up for it. */
  readonly suppliesBaseCents: Cents;
  readonly breakdown: Breakdown;
}

/**
 * What a contingency costs once it has happened: its own hours, items, supplies and tax by the rules of its revision, and
 * never more than its cap. Over the cap, the least comes off that brings the total to the cap or below: labour gives
 * way first, since it is the shop's own, then supplies, items and core deposits; the tax follows what is left. The book
 * hours stay, as they do for all labour that is not charged. No discount of line or order falls on it: none was shown
 * with it.
 */
export function contingencyCharge(contingency: ContingencyToCharge): Result<ContingencyCharge, ChoiceFault> {
  const { id, line, hundredths, items, capCents, given, policy } = contingency;
  if (!Number.isSafeInteger(capCents) || capCents < 0)
    return fail('figure-invalid', 'A cap is a whole number of cents from zero up.', {
      fields: [{ pointer: '/capCents', detail: 'This must be a whole number from 0.' }],
    });
  const asLine: EstimateLine = {
    id,
    rateId: line.rateId,
    rateCentsPerHour: line.rateCentsPerHour,
    ...(line.noCharge == null ? {} : { noCharge: line.noCharge }),
    steps: hundredths === 0 ? [] : [{ step: `contingency:${id}`, position: 'vehicle', hundredths }],
    items,
  };
  const priced = priceChoice({ lines: [asLine], chosen: [id], given, policy });
  if (!priced.ok) return priced;
  const { breakdown, ...figures } = priced.value.totals;
  const [own] = priced.value.lines;
  const suppliesBaseCents = own?.chosen === true ? own.suppliesBaseCents : cents(0);
  const uncappedCents = figures.totalCents;
  if (uncappedCents <= capCents) return ok({ figures, uncappedCents, suppliesBaseCents, breakdown });
  const cut = cutToCap({ figures, breakdown, items: itemsOfLine(asLine), capCents, policy });
  const isCharged = cut.figures.suppliesCents === figures.suppliesCents;
  return ok({ ...cut, uncappedCents, suppliesBaseCents: isCharged ? suppliesBaseCents : cents(0) });
}
