import type { BudgetProblem, Choice } from '#libs/choice';

export const median = (values: readonly number[]): number => {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  const upper = sorted[middle] ?? Number.NaN;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? Number.NaN) + upper) / 2;
};

export const worst = (values: readonly number[]): number => Math.max(...values);

/** A time with as many digits as it deserves. */
export const msText = (ms: number): string => (ms < 10 ? ms.toFixed(2) : ms.toFixed(0));

/** How far a choice may be from the best: proven, or the share of the bound that is missing. */
export function proofText({ proven, upperBound, benefit }: Choice): string {
  if (proven) return 'proven';
  return `gap ${((100 * (upperBound - benefit)) / Math.max(1, upperBound)).toFixed(1)} %`;
}

/** What is wrong with an answer, worked out anew from the problem's words; null when nothing is. */
export function flawIn({ lines, steps = [], budgetCents }: BudgetProblem, choice: Choice): string | null {
  const chosen = new Set(choice.chosen);
  const own = lines.filter(({ id }) => chosen.has(id));
  const used = new Set(own.flatMap((line) => line.steps ?? []));
  const price =
    own.reduce((sum, line) => sum + (line.cents ?? 0), 0) +
    steps.reduce((sum, step) => sum + (used.has(step.id) ? step.cents : 0), 0);
  if (price !== choice.priceCents) return `says ${choice.priceCents}, costs ${price}`;
  if (price > budgetCents) return `costs ${price}, more than ${budgetCents}`;
  const benefit = own.reduce((sum, line) => sum + line.benefit, 0);
  if (benefit !== choice.benefit) return `says benefit ${choice.benefit}, has ${benefit}`;
  const broken = lines.find((line) =>
    chosen.has(line.id)
      ? (line.requires ?? []).some((id) => !chosen.has(id)) ||
        (line.excludes ?? []).some((id) => chosen.has(id))
      : line.mustInclude === true,
  );
  return broken === undefined ? null : `breaks a rule of ${broken.id}`;
}
