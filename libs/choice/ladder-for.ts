import { cents, ok } from '#libs/kernel';
import type { Result } from '#libs/kernel';
import type { Effort, Rung } from './choice-problem.js';
import type { FoundLadder, FoundRung, SetsFault, SetsQuestion } from './found-set.js';
import { ladder } from './ladder.js';
import { problemsOf } from './problems-of.js';

/**
 * The ladder of all budgets, from the least that makes the car safe to everything worth having; from nothing where the
 * car will not be driven or none of the lines can make it safe. The budget of the question is not read.
 */
export function ladderFor(question: SetsQuestion, effort: Effort): Result<FoundLadder, SetsFault> {
  const asked = problemsOf(question);
  if (!asked.ok) return asked;
  const { safe, free, complete } = asked.value;
  const start = effort.now();
  const isFree = question.notToBeDriven || safe.length === 0;
  const climbed = isFree ? [free] : safe;
  const stairs: Rung[] = [];
  let proven = isFree || complete;
  for (const [at, problem] of climbed.entries()) {
    const left = Math.max(0, effort.timeLimitMs - (effort.now() - start));
    const found = ladder(problem, { ...effort, timeLimitMs: left / (climbed.length - at) });
    if (!found.ok) return found;
    stairs.push(...found.value.rungs);
    proven &&= found.value.proven;
  }
  const rungs = withChanges(rising(stairs));
  const allCents = rungs.at(-1)?.priceCents ?? cents(0);
  return ok({ kind: isFree ? 'not-to-be-driven' : 'drivable', proven, rungs, allCents });
}

/** Of several staircases, the steps that no other one undercuts. */
function rising(stairs: readonly Rung[]): Rung[] {
  const inOrder = [...stairs].sort((a, b) => a.priceCents - b.priceCents || b.benefit - a.benefit);
  let most = -1;
  return inOrder.filter(({ benefit }) => {
    const isMore = benefit > most;
    if (isMore) most = benefit;
    return isMore;
  });
}

function withChanges(rungs: readonly Rung[]): FoundRung[] {
  return rungs.map((rung, at) => {
    const before = rungs[at - 1]?.chosen ?? [];
    return {
      ...rung,
      added: rung.chosen.filter((id) => !before.includes(id)),
      dropped: before.filter((id) => !rung.chosen.includes(id)),
    };
  });
}
