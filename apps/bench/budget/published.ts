import { cents } from '#libs/kernel';
import type { BudgetProblem } from '#libs/choice';

const HEADER = /m\s*=\s*(\d+)\s+n\s*=\s*(\d+)\s+knapsack size\s*=\s*(\d+)/;

/** Whether a text is an instance of the set-union knapsack problem in the layout of He, Xie, Wong and Wang (2018). */
export const isSetUnionKnapsack = (text: string): boolean => HEADER.test(text);

/**
 * Reads such an instance: m items with profits, n elements with weights, a capacity, and the m × n matrix of which item
 * uses which element. An item is a line without cost of its own, an element a step.
 *
 * @throws RangeError when the numbers are not as many as the header says.
 */
export function readSetUnionKnapsack(text: string): BudgetProblem {
  const header = HEADER.exec(text);
  if (header === null) throw new RangeError('no line "m=… n=… knapsack size=…"');
  const [items = 0, elements = 0, capacity = 0] = header.slice(1).map(Number);
  const numbers = text
    .slice(header.index + header[0].length)
    .split('\n')
    .filter((row) => /^[\s\d]*\d[\s\d]*$/.test(row))
    .flatMap((row) => row.trim().split(/\s+/).map(Number));
  const wanted = items + elements + items * elements;
  if (numbers.length !== wanted) throw new RangeError(`${numbers.length} numbers instead of ${wanted}`);
  const relation = numbers.slice(items + elements);
  return {
    lines: numbers.slice(0, items).map((benefit, at) => ({
      id: `item ${at + 1}`,
      benefit,
      steps: relation
        .slice(at * elements, (at + 1) * elements)
        .flatMap((used, element) => (used === 0 ? [] : [`element ${element + 1}`])),
    })),
    steps: numbers
      .slice(items, items + elements)
      .map((weight, at) => ({ id: `element ${at + 1}`, cents: cents(weight) })),
    budgetCents: cents(capacity),
  };
}
