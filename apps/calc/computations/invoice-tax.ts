import { ok } from '#libs/kernel';
import { addDecimals, formatDecimal, taxOnDecimal } from '#libs/money';
import type { Computation } from './computation.js';
import { FieldReader } from './field-reader.js';
import { readAmount, readRate } from './read-money.js';

export const invoiceTax: Computation = {
  name: 'invoice-tax',
  shape: '{lines: ["10.30"], rate: "0.0725"} -> {perLine: ["0.75"], sumPerLine: "0.75", invoice: "0.75"}',
  run: (element) => {
    const read = new FieldReader(element);
    const lines = read.texts('lines').map((text, index) => readAmount(read, `lines[${index}]`, text));
    const rate = readRate(read);
    return read.answer(() => {
      const perLine = lines.map((line) => taxOnDecimal(line, rate));
      return ok({
        perLine: perLine.map(formatDecimal),
        sumPerLine: formatDecimal(addDecimals([{ units: 0n, scale: 2 }, ...perLine])),
        invoice: formatDecimal(taxOnDecimal(addDecimals(lines), rate)),
      });
    });
  },
};
