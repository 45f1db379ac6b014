import type { LowerPrice } from './price-model.js';
import type { Shape } from './shape.js';

/** A problem as far as a lower price speaks of it; null where no choice is both allowed and one that it speaks of. */
export function shapeWithin(shape: Shape, { within }: LowerPrice): Shape | null {
  if (within === undefined || (within.in.length === 0 && within.out.length === 0)) return shape;
  const must = new Set([...shape.must, ...within.in.flatMap((line) => [line, ...(shape.needs[line] ?? [])])]);
  const barred = new Set([
    ...shape.barred,
    ...within.out.flatMap((line) => [line, ...(shape.neededBy[line] ?? [])]),
  ]);
  for (const line of must) {
    if (barred.has(line) || shape.rivals[line]?.some((rival) => must.has(rival)) === true) return null;
  }
  return { ...shape, must: [...must].sort((a, b) => a - b), barred: [...barred].sort((a, b) => a - b) };
}
