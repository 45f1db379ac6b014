import { minutesToHours } from '#libs/time';
import type { Computation } from './computation.js';
import { FieldReader } from './field-reader.js';

export const hours: Computation = {
  name: 'hours',
  shape: '{minutes} -> {hours2: "0.12", tenths: "0.1"}',
  run: (element) => {
    const read = new FieldReader(element);
    const minutes = read.whole('minutes', { min: 0 });
    return read.answer(() => minutesToHours(minutes));
  },
};
