import type { ProjectProblem } from '#libs/project';

/** Beyond so many terms the program is too large to be handed over. */
const MOST_TERMS = 400_000;

/** An activity in a mode from a start on; it is 1 when that is chosen. */
interface Start {
  readonly name: string;
  readonly start: number;
  readonly end: number;
  readonly holds: readonly number[];
  readonly consumes: readonly number[];
}

function startsOf({ activities }: ProjectProblem, horizon: number): readonly (readonly Start[])[] {
  return activities.map(({ modes }, at) =>
    modes.flatMap(({ duration, holds, consumes }, mode) =>
      Array.from({ length: Math.max(0, horizon - duration + 1) }, (_, start) => ({
        name: `x${at}_${mode}_${start}`,
        start,
        end: start + duration,
        holds,
        consumes,
      })),
    ),
  );
}

const sum = (starts: readonly Start[], factor: (of: Start) => number): string =>
  starts
    .filter((of) => factor(of) !== 0)
    .map((of) => `${factor(of) < 0 ? '-' : '+'} ${Math.abs(factor(of))} ${of.name}`)
    .join(' ');

/**
 * The problem as an integer program in the LP file format, one variable for each start (A. A. B. Pritsker, L. J. Watters,
 * P. M. Wolfe 1969, from memory). `horizon` is a makespan that some plan has. Null when too large.
 */
export function projectProgram(problem: ProjectProblem, horizon: number): string | null {
  const starts = startsOf(problem, horizon);
  const all = starts.flat();
  const terms = all.reduce((count, { start, end, holds }) => count + (end - start) * holds.length, 0);
  const links = problem.activities.reduce((count, { successors }) => count + successors.length, 0);
  if (terms + (links * 2 * all.length) / Math.max(1, starts.length) > MOST_TERMS) return null;
  const rows: string[] = [];
  starts.forEach((own, at) => {
    rows.push(`${sum(own, () => 1)} = 1`);
    if (own.some(({ end }) => end > 0)) rows.push(`c ${sum(own, ({ end }) => -end)} >= 0`);
    for (const next of problem.activities[at]?.successors ?? []) {
      const row = `${sum(starts[next] ?? [], ({ start }) => start)} ${sum(own, ({ end }) => -end)}`;
      if (row.trim() !== '') rows.push(`${row} >= 0`);
    }
  });
  problem.renewable.forEach((units, resource) => {
    for (let time = 0; time < horizon; time++) {
      const running = all.filter(({ start, end }) => start <= time && time < end);
      const row = sum(running, ({ holds }) => holds[resource] ?? 0);
      if (row !== '') rows.push(`${row} <= ${units}`);
    }
  });
  problem.nonrenewable.forEach((units, resource) => {
    const row = sum(all, ({ consumes }) => consumes[resource] ?? 0);
    if (row !== '') rows.push(`${row} <= ${units}`);
  });
  return [
    'Minimize',
    ' obj: c',
    'Subject To',
    ...rows.map((row, at) => ` r${at}: ${row}`),
    'Bounds',
    ` 0 <= c <= ${horizon}`,
    'Binary',
    ...all.map(({ name }) => ` ${name}`),
    'End',
    '',
  ].join('\n');
}
