import type { BookHundredths } from '#libs/kernel';
import type { AlreadyAgreed } from './already-agreed.js';
import type { EstimateLine } from './estimate-line.js';
import { lessAgreed } from './less-agreed.js';
import { pairKey } from './pair-key.js';

/** A step as a line was sold it: its hours, and how many chosen lines carry them together. */
export interface CarriedStep {
  readonly step: string;
  readonly position: string;
  readonly hundredths: BookHundredths;
  readonly sharedBy: number;
}

/**
 * What each chosen line carries of the steps that the choice sells. Kept with the decision, so that later one can tell
 * how much of a step somebody has agreed to pay (`agreedFrom`), whatever was declined since.
 */
export function carriedSteps(
  lines: readonly EstimateLine[],
  chosen: readonly string[],
  given: AlreadyAgreed,
): Map<string, CarriedStep[]> {
  const left = lessAgreed(given);
  const wanted = new Set(chosen);
  const sold = lines
    .filter(({ id }) => wanted.has(id))
    .map((line) => ({
      id: line.id,
      steps: new Map(left(line.steps).map((step) => [pairKey(step), step])),
    }));
  const users = new Map<string, number>();
  for (const { steps } of sold) for (const key of steps.keys()) users.set(key, (users.get(key) ?? 0) + 1);
  return new Map(
    sold.map(({ id, steps }) => [
      id,
      [...steps].map(([key, { step, position, hundredths }]) => ({
        step,
        position,
        hundredths,
        sharedBy: users.get(key) ?? 1,
      })),
    ]),
  );
}
