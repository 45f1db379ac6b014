import type { Cents } from '#libs/kernel';

/** A cost that is paid once as soon as any of some lines is chosen. */
export interface SharedCost {
  readonly amount: number;
  /** Indices of lines, each once. */
  readonly lines: readonly number[];
}

/**
 * A price that is never above the real one by more than its slack: base + what each line adds + each shared cost once.
 * Only a bound, never shown, so its amounts may have fractions of a cent.
 */
export interface LowerPrice {
  readonly base: number;
  /** What each line adds by itself, in the order of the problem's lines; never negative. */
  readonly own: readonly number[];
  readonly shared: readonly SharedCost[];
  /** It speaks only of sets that hold all of `in` and none of `out`; of every set where this is left out. */
  readonly within?: { readonly in: readonly number[]; readonly out: readonly number[] };
  /** Roundings of a cent that the real price may gain on this one. Zero only where this one is the real price. */
  readonly slack: number;
}

/**
 * How a set of lines is priced. `exact` is the price the owner would pay. Whenever it is p for some set, at least one of
 * `lowers` prices that set at p plus its slack, or less: that is what lets a search leave sets out without pricing them,
 * and still be exact; that one lower price speaks of the set. A price with a floor or a ceiling in it has one lower price for each side.
 */
export interface PriceModel {
  /** `lines` are indices of the problem's lines, rising, each once. */
  readonly exact: (lines: readonly number[]) => Cents;
  readonly lowers: readonly LowerPrice[];
}
