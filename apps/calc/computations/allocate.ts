import { cents, ok } from '#libs/kernel';
import { allocate as allocateCents } from '#libs/money';
import type { Computation } from './computation.js';
import { FieldReader } from './field-reader.js';

export const allocate: Computation = {
  name: 'allocate',
  shape: '{cents, weights: [number]} -> {parts: [cents]}',
  run: (element) => {
    const read = new FieldReader(element);
    const total = read.whole('cents');
    const weights = read.list('weights').map((weight, index) => {
      if (typeof weight === 'number' && Number.isFinite(weight) && weight >= 0) return weight;
      read.invalid(`weights[${index}]`, 'must be a number of zero or more, without quotes');
      return 0;
    });
    if (weights.length === 0 && !read.isRefused('weights'))
      read.invalid('weights', 'must list at least one number');
    return read.answer(() => ok({ parts: allocateCents(cents(total), weights) }));
  },
};
