import { ok } from '#libs/kernel';
import { formatDecimal, taxOnDecimal } from '#libs/money';
import type { Computation } from './computation.js';
import { FieldReader } from './field-reader.js';
import { readAmount, readRate } from './read-money.js';

export const tax: Computation = {
  name: 'tax',
  shape: '{amount: "10.05", rate: "0.065", rounding?: "half-up" | "half-even"} -> {tax: "0.65"}',
  run: (element) => {
    const read = new FieldReader(element);
    const amount = readAmount(read, 'amount', read.text('amount'));
    const rate = readRate(read);
    const rounding = read.oneOf('rounding', ['half-up', 'half-even'], 'half-up');
    return read.answer(() => ok({ tax: formatDecimal(taxOnDecimal(amount, rate, rounding)) }));
  },
};
