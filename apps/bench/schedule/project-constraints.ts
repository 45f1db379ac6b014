import type { MachineProblem } from '#libs/machines';
import type { ProjectProblem } from '#libs/project';

const list = (values: readonly (number | string)[]): string => `[${values.join(', ')}]`;

/** A shop of machines as a project: each operation an activity, each machine that can do it a mode that holds it. */
export function machinesAsProject({ machines, jobs }: MachineProblem): ProjectProblem {
  let at = 0;
  const activities = jobs.flatMap((job) =>
    job.map((ways, step) => {
      at++;
      return {
        modes: ways.map(({ machine, duration }) => ({
          duration,
          holds: Array.from({ length: machines }, (_, k) => (k === machine ? 1 : 0)),
          consumes: [],
        })),
        successors: step + 1 < job.length ? [at] : [],
      };
    }),
  );
  return { activities, renewable: Array.from({ length: machines }, () => 1), nonrenewable: [] };
}

/** One activity in one mode: the name of what says whether it is chosen, null when there is no choice. */
interface Task {
  readonly activity: number;
  readonly chosen: string | null;
  readonly duration: number;
  readonly holds: readonly number[];
  readonly consumes: readonly number[];
}

function tasksOf({ activities }: ProjectProblem): Task[] {
  return activities.flatMap(({ modes }, at) =>
    modes.map((mode, k) => ({
      ...mode,
      ...{ activity: at + 1, chosen: modes.length > 1 ? `x${at + 1}_${k + 1}` : null },
    })),
  );
}

const times = (units: number, chosen: string | null): string =>
  chosen === null ? String(units) : `${units} * ${chosen}`;

/** One resource: its tasks may not hold more than there is at any time. */
function capacityRow(tasks: readonly Task[], resource: number, units: number): string | null {
  const own = tasks.filter(({ holds, duration }) => (holds[resource] ?? 0) > 0 && duration > 0);
  if (own.length === 0) return null;
  const starts = list(own.map(({ activity }) => `s[${activity}]`));
  const durations = list(own.map(({ duration }) => duration));
  if (units === 1 && own.every(({ chosen }) => chosen === null))
    return `disjunctive(${starts}, ${durations})`;
  const demands = list(own.map(({ holds, chosen }) => times(holds[resource] ?? 0, chosen)));
  return `cumulative(${starts}, ${durations}, ${demands}, ${units})`;
}

/** The project as a model in MiniZinc whose objective is the makespan: s a start, d a duration, x the choice of a mode. */
export function projectConstraints(problem: ProjectProblem): string {
  const { activities, renewable, nonrenewable } = problem;
  const tasks = tasksOf(problem);
  const n = activities.length;
  const horizon = activities.reduce(
    (sum, { modes }) => sum + Math.max(...modes.map(({ duration }) => duration)),
    0,
  );
  const choices = tasks.flatMap(({ chosen }) => (chosen === null ? [] : [chosen]));
  const rows: string[] = [];
  activities.forEach(({ modes, successors }, at) => {
    const own = tasks.filter(({ activity }) => activity === at + 1);
    const [only] = modes;
    if (modes.length === 1) rows.push(`d[${at + 1}] = ${only?.duration ?? 0}`);
    else {
      rows.push(`${own.map(({ chosen }) => chosen ?? '').join(' + ')} = 1`);
      const sum = own.map(({ duration, chosen }) => times(duration, chosen)).join(' + ');
      rows.push(`d[${at + 1}] = ${sum}`);
    }
    rows.push(`s[${at + 1}] + d[${at + 1}] <= objective`);
    for (const next of successors) rows.push(`s[${at + 1}] + d[${at + 1}] <= s[${next + 1}]`);
  });
  renewable.forEach((units, resource) => {
    const row = capacityRow(tasks, resource, units);
    if (row !== null) rows.push(row);
  });
  nonrenewable.forEach((units, resource) => {
    const own = tasks.filter(({ consumes }) => (consumes[resource] ?? 0) > 0);
    const sum = own.map(({ consumes, chosen }) => times(consumes[resource] ?? 0, chosen));
    if (sum.length > 0) rows.push(`${sum.join(' + ')} <= ${units}`);
  });
  const searched = ['int_search(s, smallest, indomain_min)'];
  if (choices.length > 0) searched.push(`int_search(${list(choices)}, input_order, indomain_max)`);
  return [
    'include "globals.mzn";',
    `array[1..${n}] of var 0..${horizon}: s;`,
    `array[1..${n}] of var 0..${horizon}: d;`,
    ...choices.map((name) => `var 0..1: ${name};`),
    `var 0..${horizon}: objective;`,
    ...rows.map((row) => `constraint ${row};`),
    `solve :: seq_search([${searched.join(', ')}]) minimize objective;`,
    'output ["objective=\\(objective)"];',
    '',
  ].join('\n');
}
