import { bestChoice } from '#libs/choice';
import { cents, ok } from '#libs/kernel';
import type { Computation } from './computation.js';
import { FieldReader } from './field-reader.js';
import { readChoice, readTimeLimit } from './read-choice.js';

const SEED = 1;

export const budget: Computation = {
  name: 'budget',
  shape:
    '{budgetCents, lines: [{id, benefit, cents, steps: [id], requires?: [id], excludes?: [id], mustInclude?: true}], steps: [{id, cents}], timeLimitMs?: 2000} -> {chosen: [id], benefit, priceCents, proven, upperBound, ms}',
  run: (element) => {
    const read = new FieldReader(element);
    const budgetCents = cents(read.whole('budgetCents', { min: 0 }));
    const problem = readChoice(read);
    const timeLimitMs = readTimeLimit(read);
    return read.answer(() => {
      const now = (): number => performance.now();
      const start = now();
      const best = bestChoice({ ...problem, budgetCents }, { timeLimitMs, now, seed: SEED });
      if (!best.ok) return best;
      const { chosen, benefit, priceCents, proven, upperBound } = best.value;
      const ms = Math.round((now() - start) * 1000) / 1000;
      return ok({ chosen, benefit, priceCents, proven, upperBound, ms });
    });
  },
};
