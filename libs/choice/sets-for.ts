import { cents, ok } from '#libs/kernel';
import type { Cents, Result } from '#libs/kernel';
import { bestChoice } from './best-choice.js';
import type { Choice, ChoiceProblem, ChoiceProblemFault, Effort } from './choice-problem.js';
import { foundSet } from './found-set.js';
import type { FoundSet, FoundSets, OfferedLine, SetKind, SetsFault, SetsQuestion } from './found-set.js';
import { problemsOf } from './problems-of.js';
import type { Problems } from './problems-of.js';

/** Of the time, the part in which the least that makes the car safe is looked for. */
const LEAST_PART = 0.25;

/**
 * The best sets for a budget. `drivable` is the best set with which nothing keeps the car from being driven; it is missing
 * when the budget is below `leastSafeCents`. `not-to-be-driven` is the best set of all, told where it is another one or
 * was asked for. None without a budget.
 */
export function setsFor(question: SetsQuestion, effort: Effort): Result<FoundSets, SetsFault> {
  const asked = problemsOf(question);
  if (!asked.ok) return asked;
  const { safe, agreedCents } = asked.value;
  const within = (part: number): Effort => ({ ...effort, timeLimitMs: part * effort.timeLimitMs });

  const least = leastOf(safe, within(LEAST_PART / Math.max(1, safe.length)));
  if (!least.ok) return least;
  const sets = setsWithin(question, asked.value, () => within((1 - LEAST_PART) / (safe.length + 1)));
  if (!sets.ok) return sets;
  const told: FoundSet[] = [];
  for (const set of sets.value) {
    const priced = foundSet(question, set.kind, set.choice);
    if (!priced.ok) return priced;
    told.push(priced.value);
  }
  return ok({ agreedCents, leastSafeCents: least.value, sets: told });
}

function leastOf(safe: readonly ChoiceProblem[], effort: Effort): Result<Cents | null, ChoiceProblemFault> {
  const prices: number[] = [];
  for (const problem of safe) {
    const found = bestChoice({ ...problem, budgetCents: cents(0) }, effort);
    if (found.ok) prices.push(0);
    else if (found.fault.code === 'must-include-too-dear')
      prices.push(Number(found.fault.facts?.['leastCents']));
    else return found;
  }
  return ok(prices.length === 0 ? null : cents(Math.min(...prices)));
}

interface RawSet {
  readonly kind: SetKind;
  readonly choice: Choice;
}

function setsWithin(
  { lines, budgetCents, notToBeDriven }: SetsQuestion,
  { safe, free, complete }: Problems,
  effort: () => Effort,
): Result<RawSet[], ChoiceProblemFault> {
  if (budgetCents === null) return ok([]);
  const drivable = bestOf(safe, budgetCents, effort);
  if (!drivable.ok) return drivable;
  const sets: RawSet[] = [];
  if (drivable.value !== null)
    sets.push({ kind: 'drivable', choice: complete ? drivable.value : unproven(drivable.value, lines) });
  const isForced =
    safe.length !== 1 || safe[0]?.lines.some(({ mustInclude }) => mustInclude === true) === true;
  if (!isForced && !notToBeDriven) return ok(sets);
  const best = bestOf([free], budgetCents, effort);
  if (!best.ok) return best;
  const other = best.value;
  const isNews = notToBeDriven || sets[0]?.choice.chosen.join(' ') !== other?.chosen.join(' ');
  return ok(other !== null && isNews ? [...sets, { kind: 'not-to-be-driven', choice: other }] : sets);
}

/** Not all ways were looked at, so that only the sum of all benefits bounds what was missed. */
function unproven(choice: Choice, lines: readonly OfferedLine[]): Choice {
  return { ...choice, proven: false, upperBound: lines.reduce((sum, { benefit }) => sum + benefit, 0) };
}

/** The best over several problems; null where none of them has anything within the budget. */
function bestOf(
  problems: readonly ChoiceProblem[],
  budgetCents: Cents,
  effort: () => Effort,
): Result<Choice | null, ChoiceProblemFault> {
  let best: Choice | null = null;
  let proven = true;
  let upperBound = 0;
  for (const problem of problems) {
    const found = bestChoice({ ...problem, budgetCents }, effort());
    if (!found.ok) {
      if (found.fault.code === 'must-include-too-dear') continue;
      return found;
    }
    const choice = found.value;
    proven &&= choice.proven;
    upperBound = Math.max(upperBound, choice.upperBound);
    const gain = choice.benefit - (best?.benefit ?? -1);
    if (gain > 0 || (gain === 0 && choice.priceCents < (best?.priceCents ?? Infinity))) best = choice;
  }
  return ok(best === null ? null : { ...best, proven, upperBound });
}
