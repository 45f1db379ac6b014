import type { ActivityMode, ProjectActivity, ProjectProblem } from '#libs/project';
import { allNumbers } from './all-numbers.js';
import { numberRows } from './number-rows.js';

/** Whether every successor is an activity that there is. */
const isWhole = (activities: readonly ProjectActivity[]): boolean =>
  activities.every(
    ({ modes, successors }) => modes.length > 0 && successors.every((next) => next in activities),
  );

/**
 * A project in J. H. Patterson's layout: how many activities and resources, the units of each resource, then for each
 * activity its duration, what it holds of each resource, how many activities follow it, and which (counted from 1). Null
 * for any other text.
 */
export function readPatterson(text: string): ProjectProblem | null {
  const numbers = allNumbers(text);
  if (numbers === null || numbers.length < 2) return null;
  const [size = 0, kinds = 0] = numbers;
  let at = 2;
  const take = (count: number): readonly number[] => numbers.slice(at, (at += count));
  const renewable = take(kinds);
  const activities: ProjectActivity[] = [];
  while (activities.length < size && at < numbers.length) {
    const [duration = -1] = take(1);
    const holds = take(kinds);
    const [follow = 0] = take(1);
    const successors = take(follow).map((number) => number - 1);
    activities.push({ modes: [{ duration, holds, consumes: [] }], successors });
  }
  const isUsedUp = at === numbers.length && activities.length === size && size > 0;
  return isUsedUp && isWhole(activities) ? { activities, renewable, nonrenewable: [] } : null;
}

const countIn = (text: string, kind: string): number =>
  Number(new RegExp(`-\\s*${kind}\\s*:\\s*(\\d+)`, 'i').exec(text)?.[1] ?? 0);

/** The rows of numbers below a heading, up to the next line of asterisks. */
function rowsBelow(text: string, heading: string): readonly (readonly number[])[] {
  const from = text.toUpperCase().indexOf(heading);
  if (from < 0) return [];
  const rest = text.slice(text.indexOf('\n', from) + 1);
  return numberRows(rest.split(/^\s*\*{4,}/m, 1)[0] ?? '');
}

/** The modes of each activity. Only the first of an activity's rows has the number of the activity in front. */
function modesIn(
  rows: readonly (readonly number[])[],
  held: number,
  used: number,
): readonly (readonly ActivityMode[])[] | null {
  const modes: ActivityMode[][] = [];
  const width = 2 + held + used;
  for (const row of rows) {
    if (row.length === width + 1) {
      if (row[0] !== modes.length + 1) return null;
      modes.push([]);
    } else if (row.length !== width) return null;
    const [, duration = 0, ...units] = row.slice(-width);
    modes.at(-1)?.push({ duration, holds: units.slice(0, held), consumes: units.slice(held) });
  }
  return modes;
}

/**
 * A project in the layout of the project scheduling problem library (R. Kolisch and A. Sprecher 1996), single-mode or
 * multi-mode. Null for any other text, and for one with doubly constrained resources.
 */
export function readProjectLibrary(text: string): ProjectProblem | null {
  const held = countIn(text, 'renewable');
  const used = countIn(text, 'nonrenewable');
  if (countIn(text, 'doubly constrained') > 0) return null;
  const relations = rowsBelow(text, 'PRECEDENCE RELATIONS');
  const modes = modesIn(rowsBelow(text, 'REQUESTS/DURATIONS'), held, used);
  const units = rowsBelow(text, 'RESOURCEAVAILABILITIES').flat();
  if (relations.length === 0 || modes === null || modes.length !== relations.length) return null;
  if (units.length !== held + used) return null;
  const isRight = relations.every(
    ([number, count, follow, ...successors], at) =>
      number === at + 1 && count === modes[at]?.length && follow === successors.length,
  );
  const activities = relations.map(([, , , ...successors], at) => ({
    modes: modes[at] ?? [],
    successors: successors.map((number) => number - 1),
  }));
  if (!isRight || !isWhole(activities)) return null;
  return { activities, renewable: units.slice(0, held), nonrenewable: units.slice(held) };
}
