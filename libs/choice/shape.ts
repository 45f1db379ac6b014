import { fail, ok } from '#libs/kernel';
import type { FieldFault, Result } from '#libs/kernel';
import type { ChoiceLine, ChoiceProblem, ChoiceProblemFault } from './choice-problem.js';

/** A problem without its prices, by index: what comes with what, and what rules out what. */
export interface Shape {
  readonly ids: readonly string[];
  readonly benefit: Float64Array;
  /** All lines that come with a line, directly or through others; without itself. */
  readonly needs: readonly (readonly number[])[];
  /** The same the other way round. */
  readonly neededBy: readonly (readonly number[])[];
  /** Lines that cannot stand beside a line, nor beside what it needs. */
  readonly rivals: readonly (readonly number[])[];
  readonly must: readonly number[];
  /** Lines that cannot be chosen at all. */
  readonly barred: readonly number[];
}

/** Above this a figure is a slip of the keyboard, and below it every sum is exact. */
const LARGEST = 1_000_000_000_000;

const firstTwice = (ids: readonly string[]): string | undefined => {
  const seen = new Set<string>();
  return ids.find((id) => seen.size === seen.add(id).size);
};

function figureFaults({ lines, steps = [] }: ChoiceProblem): FieldFault[] {
  const faults: FieldFault[] = [];
  const check = (pointer: string, value: number | undefined): void => {
    if (value === undefined || (Number.isSafeInteger(value) && value >= 0 && value <= LARGEST)) return;
    faults.push({ pointer, detail: `This must be a whole number from 0 to ${LARGEST}.` });
  };
  lines.forEach((line, at) => {
    check(`/lines/${at}/benefit`, line.benefit);
    check(`/lines/${at}/cents`, line.cents);
  });
  steps.forEach((step, at) => check(`/steps/${at}/cents`, step.cents));
  return faults;
}

function unknownNames({ lines, steps = [], given = [], prices }: ChoiceProblem): ChoiceProblemFault | null {
  const twice = firstTwice(lines.map(({ id }) => id));
  if (twice !== undefined)
    return {
      code: 'line-listed-twice',
      detail: `Line "${twice}" is listed twice: give each line its own id.`,
    };
  const step = firstTwice(steps.map(({ id }) => id));
  if (step !== undefined)
    return { code: 'step-listed-twice', detail: `Step "${step}" is listed twice: give each step one price.` };
  const known = new Set([...lines.map(({ id }) => id), ...given]);
  const priced = new Set(steps.map(({ id }) => id));
  for (const { id, requires = [], excludes = [], steps: own = [] } of lines) {
    const line = [...requires, ...excludes].find((name) => !known.has(name));
    if (line !== undefined)
      return { code: 'line-unknown', detail: `Line "${id}" names line "${line}", which is not there.` };
    const used = prices === undefined ? own.find((name) => !priced.has(name)) : undefined;
    if (used !== undefined)
      return {
        code: 'step-unknown',
        detail: `Line "${id}" uses step "${used}", which is not in the list of steps.`,
      };
  }
  return null;
}

/** Everything that a line needs, through however many others. */
function closure(start: number, direct: readonly (readonly number[])[]): number[] {
  const found = new Set([start]);
  for (const at of found) for (const next of direct[at] ?? []) found.add(next);
  found.delete(start);
  return [...found];
}

/** A relation the other way round. */
function turned(relation: readonly (readonly number[])[]): number[][] {
  const back: number[][] = relation.map(() => []);
  relation.forEach((to, from) => to.forEach((at) => back[at]?.push(from)));
  return back;
}

/** i rules out j as soon as something that comes with i rules out something that comes with j. */
function rivalsOf(
  lines: readonly ChoiceLine[],
  indexOf: ReadonlyMap<string, number>,
  neededBy: readonly (readonly number[])[],
): Set<number>[] {
  const rivals = lines.map(() => new Set<number>());
  lines.forEach((line, at) => {
    for (const id of line.excludes ?? []) {
      const other = indexOf.get(id);
      if (other === undefined) continue;
      for (const left of [at, ...(neededBy[at] ?? [])]) {
        for (const right of [other, ...(neededBy[other] ?? [])]) {
          rivals[left]?.add(right);
          rivals[right]?.add(left);
        }
      }
    }
  });
  return rivals;
}

/** Checks a problem and puts it in terms of indices. */
export function shapeOf(problem: ChoiceProblem): Result<Shape, ChoiceProblemFault> {
  const unknown = unknownNames(problem);
  if (unknown !== null) return { ok: false, fault: unknown };
  const fields = figureFaults(problem);
  if (fields.length > 0) return fail('figure-invalid', 'Some figures cannot be weighed.', { fields });

  const { lines } = problem;
  const given = new Set(problem.given ?? []);
  const indexOf = new Map(lines.map(({ id }, at) => [id, at]));
  const direct = lines.map(({ requires = [] }) =>
    requires.flatMap((id) => (given.has(id) ? [] : [indexOf.get(id) ?? 0])),
  );
  const needs = lines.map((_, at) => closure(at, direct));
  const neededBy = turned(needs);
  const rivals = rivalsOf(lines, indexOf, neededBy);
  // What was approved before may or may not be listed among the lines; either way it bars its rivals and what needs them.
  const isBarredByGiven = (at: number): boolean =>
    (lines[at]?.excludes ?? []).some((id) => given.has(id)) ||
    [...(rivals[at] ?? [])].some((rival) => given.has(ids(lines, rival)));
  const gone = lines.map(
    ({ id }, at) =>
      given.has(id) || rivals[at]?.has(at) === true || [at, ...(needs[at] ?? [])].some(isBarredByGiven),
  );
  const barred = lines.flatMap((_, at) => (gone[at] === true ? [at] : []));
  const must = new Set(
    lines.flatMap(({ id, mustInclude }, at) =>
      mustInclude === true && !given.has(id) ? [at, ...(needs[at] ?? [])] : [],
    ),
  );
  for (const at of must) {
    const other = gone[at] === true ? at : [...(rivals[at] ?? [])].find((rival) => must.has(rival));
    if (other !== undefined)
      return fail(
        'must-include-conflict',
        `Line "${ids(lines, at)}" must be in, but it cannot stand beside "${ids(lines, other)}" or what comes with them.`,
      );
  }
  return ok({
    ids: lines.map(({ id }) => id),
    benefit: Float64Array.from(lines, ({ benefit }) => benefit),
    needs,
    neededBy,
    rivals: rivals.map((own) => [...own]),
    must: [...must].sort((a, b) => a - b),
    barred,
  });
}

const ids = (lines: readonly ChoiceLine[], at: number): string => lines[at]?.id ?? '';
