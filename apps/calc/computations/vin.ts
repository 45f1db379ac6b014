import { ok } from '#libs/kernel';
import { checkVin } from '#libs/vin';
import type { Computation } from './computation.js';
import { FieldReader } from './field-reader.js';

export const vin: Computation = {
  name: 'vin',
  shape: '{input, modelYear?} -> {verdict, normalised, checkDigit, modelYears}',
  run: (element) => {
    const read = new FieldReader(element);
    const input = read.text('input');
    const modelYear = read.optionalWhole('modelYear', { min: 1800, max: 2999 });
    return read.answer(() => {
      const check = checkVin(input, modelYear);
      return ok({
        verdict: check.verdict,
        normalised: check.normalised,
        checkDigit: check.checkDigit,
        modelYears: check.modelYears,
      });
    });
  },
};
