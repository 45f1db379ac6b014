import { cents, ok } from '#libs/kernel';
import type { Cents, Result } from '#libs/kernel';
import { priceChoice } from '#libs/estimate';
import type { ChoiceFault } from '#libs/estimate';
import type { Choice, ChoiceLine, ChoiceProblemFault, Rung } from './choice-problem.js';
import type { EstimateTerms } from './estimate-prices.js';

/** A line as far as choosing goes; `mustInclude`: the car may not be driven without it. */
export type OfferedLine = Required<
  Pick<ChoiceLine, 'id' | 'benefit' | 'mustInclude' | 'requires' | 'excludes'>
>;

/** A question about one revision. Plain data throughout, so that it can go to another thread. */
export interface SetsQuestion {
  /** All lines of the revision. */
  readonly lines: readonly OfferedLine[];
  /** How they are priced; lines whose price is fixed, because work on them has begun, are not among them. */
  readonly terms: EstimateTerms;
  /** Lines that are agreed to: those that are priced with whatever is chosen beside them, and those that are fixed. */
  readonly approved: readonly string[];
  /** What can be spent beside what is agreed to; null for no set at all. */
  readonly budgetCents: Cents | null;
  /** The car will not be driven, so that nothing must be in. */
  readonly notToBeDriven: boolean;
}

export type SetKind = 'drivable' | 'not-to-be-driven';

/** Prices are what comes on top of what is agreed to. Ids are in the order of the revision, without those agreed to. */
export interface FoundSet {
  readonly kind: SetKind;
  readonly chosen: readonly string[];
  readonly leftOut: readonly string[];
  readonly priceCents: Cents;
  /** With what is agreed to and still priced beside it; the shares of all of these add up to it. */
  readonly totalCents: Cents;
  /** What each chosen line carries of it, in the order of `chosen`. */
  readonly shares: readonly Cents[];
  readonly benefit: number;
  readonly proven: boolean;
  readonly upperBound: number;
}

export interface FoundRung extends Rung {
  /** Against the rung before. */
  readonly added: readonly string[];
  readonly dropped: readonly string[];
}

export interface FoundSets {
  /** What is agreed to and not fixed, as one choice. */
  readonly agreedCents: Cents;
  /** The least that makes the car safe; null when none of these lines can. */
  readonly leastSafeCents: Cents | null;
  readonly sets: readonly FoundSet[];
}

export interface FoundLadder {
  readonly kind: SetKind;
  /** At every budget the best set is the dearest rung that it reaches. */
  readonly proven: boolean;
  readonly rungs: readonly FoundRung[];
  /** Everything that is worth having: the highest rung. */
  readonly allCents: Cents;
}

export type SetsFault = ChoiceProblemFault | ChoiceFault;

/** A choice in the words and the order of the revision, with what each line carries of the price. */
export function foundSet(
  { lines, terms, approved }: SetsQuestion,
  kind: SetKind,
  choice: Choice,
): Result<FoundSet, ChoiceFault> {
  const isChosen = new Set(choice.chosen);
  const inOrder = lines.flatMap(({ id }) => (approved.includes(id) ? [] : [id]));
  const chosen = inOrder.filter((id) => isChosen.has(id));
  const isPriced = new Set(terms.lines.map(({ id }) => id));
  const price = priceChoice({ ...terms, chosen: [...approved.filter((id) => isPriced.has(id)), ...chosen] });
  if (!price.ok) return price;
  const carried = new Map(
    price.value.lines.map((line) => [line.id, line.chosen ? line.totalCents : cents(0)]),
  );
  const { benefit, priceCents, proven, upperBound } = choice;
  return ok({
    kind,
    chosen,
    leftOut: inOrder.filter((id) => !isChosen.has(id)),
    priceCents,
    totalCents: price.value.totals.totalCents,
    shares: chosen.map((id) => carried.get(id) ?? cents(0)),
    ...{ benefit, proven, upperBound },
  });
}
