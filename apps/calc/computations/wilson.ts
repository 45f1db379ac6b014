import { wilson as wilsonBounds } from '#libs/statistics';
import type { Computation } from './computation.js';
import { FieldReader } from './field-reader.js';

export const wilson: Computation = {
  name: 'wilson',
  shape: '{x, n, confidence?: 0.95} -> {lo, hi}',
  run: (element) => {
    const read = new FieldReader(element);
    const n = read.whole('n', { min: 1 });
    const x = read.whole('x', { min: 0 });
    if (x > n && !read.isRefused('n')) read.invalid('x', `must not be greater than n, which is ${n}`);
    const confidence = read.optionalNumber('confidence') ?? 0.95;
    if (!(confidence > 0 && confidence < 1))
      read.invalid('confidence', 'must lie between 0 and 1, such as 0.95');
    return read.answer(() => wilsonBounds(x, n, confidence));
  },
};
