import { bookHundredths } from '#libs/kernel';
import type { LabourStep } from '#libs/labour';
import type { AlreadyAgreed } from './already-agreed.js';
import { pairKey } from './pair-key.js';

/** What is left to sell of each step once that which was agreed to before is taken off; steps with nothing left go. */
export function lessAgreed(given: AlreadyAgreed): (steps: readonly LabourStep[]) => LabourStep[] {
  const agreed = new Map(given.steps.map((pair) => [pairKey(pair), pair.hundredths ?? Infinity]));
  return (steps) =>
    steps.flatMap((step) => {
      const before = agreed.get(pairKey(step));
      if (before === undefined) return [step];
      const left = step.hundredths - before;
      return left > 0 ? [{ ...step, hundredths: bookHundredths(left) }] : [];
    });
}
