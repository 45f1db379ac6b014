import { bookHundredths, ok, type Result } from '#libs/kernel';
import { alone, chooseOperations, shares, together, type LabourOperation } from '#libs/labour';
import type { Computation } from './computation.js';
import { FieldReader } from './field-reader.js';

export const labour: Computation = {
  name: 'labour',
  shape:
    '{operations: [{id, steps: [{step, position, hundredths}]}], chosen: [id]} -> {alone: {id: hundredths}, together, shares: {id: hundredths}}',
  run: (element) => {
    const read = new FieldReader(element);
    const operations = read.objects('operations', readOperation);
    const chosen = read.texts('chosen');
    return read.answer(() => compute(operations, chosen));
  },
};

function readOperation(read: FieldReader): LabourOperation {
  return {
    id: read.id('id'),
    steps: read.objects('steps', (step) => ({
      step: step.id('step'),
      // A step that has no side of the car may leave its position empty.
      position: step.text('position'),
      hundredths: bookHundredths(step.whole('hundredths', { min: 0 })),
    })),
  };
}

function compute(catalogue: readonly LabourOperation[], chosen: readonly string[]): Result<unknown> {
  const operations = chooseOperations(catalogue, chosen);
  if (!operations.ok) return operations;
  const sum = together(operations.value);
  if (!sum.ok) return sum;
  const split = shares(operations.value);
  if (!split.ok) return split;
  const single: [string, number][] = [];
  for (const operation of operations.value) {
    const hours = alone(operation);
    if (!hours.ok) return hours;
    single.push([operation.id, hours.value]);
  }
  return ok({
    alone: Object.fromEntries(single),
    together: sum.value,
    shares: Object.fromEntries(split.value),
  });
}
