import type { Money } from '../money.js';

/** What the parts that offer sets of lines share: how things are called, and what happens when one is taken. */
export interface Taking {
  readonly money: Money;
  readonly titles: ReadonlyMap<string, string>;
  /** Whether exactly these lines, beside what is agreed to, are ticked. */
  readonly isTaken: (lineIds: readonly string[]) => boolean;
  readonly onTake: (lineIds: readonly string[]) => void;
}

/** The same lines, in whatever order. */
export const sameLines = (a: readonly string[], b: readonly string[]): boolean =>
  a.length === b.length && a.every((id) => b.includes(id));
