import { ladder as climb } from '#libs/choice';
import type { Computation } from './computation.js';
import { FieldReader } from './field-reader.js';
import { readChoice, readTimeLimit } from './read-choice.js';

const SEED = 1;

export const ladder: Computation = {
  name: 'ladder',
  shape:
    '{lines: [{id, benefit, cents, steps: [id], requires?: [id], excludes?: [id], mustInclude?: true}], steps: [{id, cents}], timeLimitMs?: 2000} -> {rungs: [{priceCents, benefit, chosen: [id]}], proven}',
  run: (element) => {
    const read = new FieldReader(element);
    const problem = readChoice(read);
    const timeLimitMs = readTimeLimit(read);
    return read.answer(() => climb(problem, { timeLimitMs, now: () => performance.now(), seed: SEED }));
  },
};
