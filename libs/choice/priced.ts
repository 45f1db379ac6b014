import { cents, ok } from '#libs/kernel';
import type { Result } from '#libs/kernel';
import type { ChoiceProblem, ChoiceProblemFault } from './choice-problem.js';
import { plainPrices } from './plain-prices.js';
import type { PriceModel } from './price-model.js';
import { shapeOf } from './shape.js';
import type { Shape } from './shape.js';

/** A checked problem by index, with the model that prices it. */
export interface Priced {
  readonly shape: Shape;
  readonly prices: PriceModel;
}

export function priced(problem: ChoiceProblem): Result<Priced, ChoiceProblemFault> {
  const shape = shapeOf(problem);
  if (!shape.ok) return shape;
  return ok({ shape: shape.value, prices: problem.prices ?? plainlyPriced(problem) });
}

/** The steps of lines that were approved before are paid for. */
function plainlyPriced({ lines, steps = [], given = [] }: ChoiceProblem): PriceModel {
  const before = new Set(given);
  const paid = new Set(lines.flatMap((line) => (before.has(line.id) ? (line.steps ?? []) : [])));
  return plainPrices(
    lines,
    steps.map((step) => (paid.has(step.id) ? { ...step, cents: cents(0) } : step)),
  );
}
