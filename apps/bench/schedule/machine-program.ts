import type { MachineOperation, MachineProblem } from '#libs/machines';

/** Beyond so many pairs of operations on one machine the program is too large to be handed over. */
const MOST_PAIRS = 20_000;

interface Numbered {
  readonly name: string;
  readonly ways: MachineOperation;
}

/** "x0_1" for an operation on a machine; it is 1 when it is done there. */
const on = ({ name }: Numbered, machine: number): string => `x${name}_${machine}`;

const durationTerms = (operation: Numbered, sign: '+' | '-'): string =>
  operation.ways.map(({ machine, duration }) => `${sign} ${duration} ${on(operation, machine)}`).join(' ');

/** Either a before b or b before a, when both are on the machine; y is 1 for the first. */
function pairRows(a: Numbered, b: Numbered, machine: number, horizon: number): readonly [string, string] {
  const y = `y${a.name}_${b.name}_${machine}`;
  const off = `${horizon} ${on(a, machine)} - ${horizon} ${on(b, machine)}`;
  return [
    `s${b.name} - s${a.name} ${durationTerms(a, '-')} - ${horizon} ${y} - ${off} >= ${-3 * horizon}`,
    `s${a.name} - s${b.name} ${durationTerms(b, '-')} + ${horizon} ${y} - ${off} >= ${-2 * horizon}`,
  ];
}

/**
 * The problem as an integer program in the LP file format (A. S. Manne 1960, from memory): s a start, x a choice of
 * machine, y which of two comes first, c the makespan. `horizon` is one that some plan keeps. Null when too large.
 */
export function machineProgram({ machines, jobs }: MachineProblem, horizon: number): string | null {
  const named = jobs.map((job, at) => job.map((ways, step): Numbered => ({ name: `${at}_${step}`, ways })));
  const all = named.flat();
  const rows: string[] = [];
  const choices = all.flatMap((one) => one.ways.map(({ machine }) => on(one, machine)));
  const orders: string[] = [];
  for (const one of all) {
    rows.push(`${one.ways.map(({ machine }) => on(one, machine)).join(' + ')} = 1`);
    rows.push(`c - s${one.name} ${durationTerms(one, '-')} >= 0`);
  }
  for (const job of named)
    job.slice(1).forEach((next, step) => {
      const ahead = job[step];
      if (ahead !== undefined) rows.push(`s${next.name} - s${ahead.name} ${durationTerms(ahead, '-')} >= 0`);
    });
  for (let machine = 0; machine < machines; machine++) {
    const able = all.filter(({ ways }) => ways.some((way) => way.machine === machine));
    for (const [at, a] of able.entries())
      for (const b of able.slice(at + 1)) {
        orders.push(`y${a.name}_${b.name}_${machine}`);
        if (orders.length > MOST_PAIRS) return null;
        rows.push(...pairRows(a, b, machine, horizon));
      }
  }
  return [
    'Minimize',
    ' obj: c',
    'Subject To',
    ...rows.map((row, at) => ` r${at}: ${row}`),
    'Bounds',
    ...all.map(({ name }) => ` 0 <= s${name} <= ${horizon}`),
    ` 0 <= c <= ${horizon}`,
    'Binary',
    ...[...choices, ...orders].map((name) => ` ${name}`),
    'End',
    '',
  ].join('\n');
}
