import { ok } from '#libs/kernel';
import type { Cents, Result } from '#libs/kernel';
import type { ChoiceProblem } from './choice-problem.js';
import { estimatePrices } from './estimate-prices.js';
import type { SetsFault, SetsQuestion } from './found-set.js';
import { pricesBeside } from './prices-beside.js';
import { safeWays } from './safe-ways.js';

/** What a question comes to: the same prices and lines, with or without what makes the car safe. */
export interface Problems {
  /** One for each way to make the car safe. */
  readonly safe: readonly ChoiceProblem[];
  readonly free: ChoiceProblem;
  readonly complete: boolean;
  readonly agreedCents: Cents;
}

/** Puts a question about a revision in terms of what is chosen beside what is agreed to. */
export function problemsOf({ lines, terms, approved }: SetsQuestion): Result<Problems, SetsFault> {
  const model = estimatePrices(terms);
  if (!model.ok) return model;
  const agreed = new Set(approved);
  // Whoever agreed to a line without what it requires has settled that; it bars nothing for the sake of what is missing.
  const byId = new Map(
    lines.map((line) => [line.id, agreed.has(line.id) ? { ...line, requires: [] } : line]),
  );
  const isPriced = new Set(terms.lines.map(({ id }) => id));
  // The indices of the price come first; what is fixed has no price any more, and is there for what it excludes.
  const ordered = [
    ...terms.lines.flatMap(({ id }) => byId.get(id) ?? []),
    ...[...byId.values()].filter(({ id }) => !isPriced.has(id)),
  ];
  const taken = ordered.flatMap(({ id }, at) => (agreed.has(id) && isPriced.has(id) ? [at] : []));
  const beside = pricesBeside(model.value, taken);
  const prices = {
    exact: beside.exact,
    lowers: beside.lowers.map((lower) => ({ ...lower, own: ordered.map((_, at) => lower.own[at] ?? 0) })),
  };
  const problem: ChoiceProblem = { lines: ordered, given: approved, prices };
  const found = safeWays(problem);
  if (!found.ok) return found;
  const forced = (way: readonly string[]): ChoiceProblem => ({
    ...problem,
    lines: ordered.map((line) => ({ ...line, mustInclude: way.includes(line.id) })),
  });
  const { ways, complete } = found.value;
  const agreedCents = model.value.exact(taken);
  return ok({ safe: ways.map(forced), free: forced([]), complete, agreedCents });
}
