import type { TardinessProblem } from '#libs/tardiness';
import { allNumbers } from './all-numbers.js';

/** What the generator of the public instances draws from: durations 1 to 100, weights 1 to 10. */
const LONGEST = 100;
const HEAVIEST = 10;
/** How many instances the public files hold. */
const USUAL_COUNT = 125;

const isWithin = (values: readonly number[], from: number, to: number): boolean =>
  values.every((value) => value >= from && value <= to);

/** The instances of a text when each has so many jobs; null when what would be weights or durations cannot be. */
function split(numbers: readonly number[], size: number): readonly TardinessProblem[] | null {
  const problems: TardinessProblem[] = [];
  for (let from = 0; from < numbers.length; from += 3 * size) {
    const [durations = [], weights = [], dues = []] = [0, 1, 2].map((third) =>
      numbers.slice(from + third * size, from + (third + 1) * size),
    );
    if (!isWithin(durations, 1, LONGEST) || !isWithin(weights, 1, HEAVIEST)) return null;
    problems.push({
      jobs: durations.map((duration, at) => ({ duration, weight: weights[at] ?? 0, due: dues[at] ?? 0 })),
    });
  }
  return problems;
}

/**
 * Weighted tardiness on one machine (H. A. J. Crauwels, C. N. Potts, L. N. Van Wassenhove 1998): instance after instance the
 * durations of all jobs, their weights, their due dates. The layout does not say how many jobs there are: it is the number
 * that makes 125 instances, else the least from 5 up with which all durations and weights are such as the generator draws.
 * Null for any other text.
 */
export function readTardiness(text: string): readonly TardinessProblem[] | null {
  const numbers = allNumbers(text);
  if (numbers === null || numbers.length < 15 || numbers.length % 3 !== 0) return null;
  const all = numbers.length / 3;
  const sizes = [all / USUAL_COUNT, ...Array.from({ length: all - 4 }, (_, at) => at + 5)];
  for (const size of sizes) {
    if (!Number.isInteger(size) || all % size !== 0) continue;
    const problems = split(numbers, size);
    if (problems !== null) return problems;
  }
  return null;
}
