import { ok } from '#libs/kernel';
import type { Result } from '#libs/kernel';
import type { ChoiceProblem, ChoiceProblemFault } from './choice-problem.js';
import { shapeOf } from './shape.js';

/** Beyond this many ways nobody has written an estimate. */
const MOST_WAYS = 16;

export interface SafeWays {
  /** Each a set of lines that must be in; one empty set where nothing is unsafe, none where nothing can make it safe. */
  readonly ways: readonly (readonly string[])[];
  /** False when there are more ways than were listed. */
  readonly complete: boolean;
}

/**
 * In which ways the car can be made safe. Every line with `mustInclude` is in, or one of those that it excludes and that
 * must be in as well stands in for it: a new part or a used one for the same trouble. A line that was approved before
 * counts as in.
 */
export function safeWays(problem: ChoiceProblem): Result<SafeWays, ChoiceProblemFault> {
  const lines = problem.lines.map((line) => ({ ...line, mustInclude: false }));
  const found = shapeOf({ ...problem, lines });
  if (!found.ok) return found;
  const shape = found.value;
  const given = new Set(problem.given ?? []);
  const barred = new Set(shape.barred);
  const indexOf = new Map(shape.ids.map((id, at) => [id, at]));
  const unsafe = problem.lines.flatMap(({ mustInclude }, at) => (mustInclude === true ? [at] : []));
  const standsIn = unsafe.map((at) =>
    unsafe.filter(
      (other) =>
        other !== at && (excludes(problem, at, shape.ids[other]) || excludes(problem, other, shape.ids[at])),
    ),
  );
  const isGiven = (at: number): boolean => given.has(shape.ids[at] ?? '');
  const ways = new Map<string, string[]>();
  let complete = true;

  const extend = (chosen: readonly number[]): void => {
    const isIn = (at: number): boolean => isGiven(at) || chosen.includes(at);
    const place = unsafe.findIndex((at, own) => !isIn(at) && !(standsIn[own] ?? []).some(isIn));
    const next = unsafe[place];
    if (next === undefined) {
      const ids = chosen
        .map((at) => shape.ids[at] ?? '')
        .sort((a, b) => (indexOf.get(a) ?? 0) - (indexOf.get(b) ?? 0));
      ways.set(ids.join(' '), ids);
      return;
    }
    for (const at of [next, ...(standsIn[place] ?? [])]) {
      if (barred.has(at) || chosen.some((other) => shape.rivals[at]?.includes(other) === true)) continue;
      if (ways.size >= MOST_WAYS) complete = false;
      else extend([...chosen, at]);
    }
  };
  extend([]);
  return ok({ ways: [...ways.values()], complete });
}

function excludes({ lines }: ChoiceProblem, at: number, id: string | undefined): boolean {
  return id !== undefined && (lines[at]?.excludes ?? []).includes(id);
}
