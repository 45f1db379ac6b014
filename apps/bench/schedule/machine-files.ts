import type { MachineAlternative, MachineOperation, MachineProblem } from '#libs/machines';
import { numberRows } from './number-rows.js';

type Rows = readonly (readonly number[])[];

interface Raw {
  readonly machines: number;
  readonly jobs: readonly (readonly MachineOperation[])[];
}

/** Machines are counted from 0 or from 1; they are from 1 when the last one's number says so. */
function counted({ machines, jobs }: Raw): MachineProblem | null {
  const used = jobs.flatMap((job) => job.flatMap((ways) => ways.map((way) => way.machine)));
  const first = used.includes(machines) && !used.includes(0) ? 1 : 0;
  if (used.some((machine) => machine < first || machine >= machines + first)) return null;
  return {
    machines,
    jobs: jobs.map((job) =>
      job.map((ways) => ways.map(({ machine, duration }) => ({ machine: machine - first, duration }))),
    ),
  };
}

const isHeader = (row: readonly number[] | undefined): row is readonly number[] =>
  row !== undefined && (row.length === 2 || row.length === 3) && row.slice(0, 2).every(Number.isInteger);

/** The rows below the header when they are whole numbers and as many as it says. */
function bodyOf(rows: Rows): { jobs: number; machines: number; body: Rows } | null {
  const [header, ...body] = rows;
  if (!isHeader(header)) return null;
  const [jobs = 0, machines = 0] = header;
  const isWhole = body.every((row) => row.every(Number.isSafeInteger));
  return isWhole && jobs > 0 && machines > 0 ? { jobs, machines, body } : null;
}

/**
 * A job shop in its standard layout: a row "jobs machines", then a row per job with machine and duration of each of its
 * operations in turn, each machine once. Null for any other text.
 */
export function readJobShop(text: string): MachineProblem | null {
  const file = bodyOf(numberRows(text));
  if (file?.body.length !== file?.jobs || file === null) return null;
  const { machines, body } = file;
  const isJob = (row: readonly number[]): boolean =>
    row.length === 2 * machines && new Set(row.filter((_, at) => at % 2 === 0)).size === machines;
  if (!body.every(isJob)) return null;
  const operation = (row: readonly number[], at: number): MachineOperation => [
    { machine: row[2 * at] ?? -1, duration: row[2 * at + 1] ?? -1 },
  ];
  return counted({
    machines,
    jobs: body.map((row) => Array.from({ length: machines }, (_, at) => operation(row, at))),
  });
}

/** The operations of one job's row; null when the row is not used up exactly. */
function flexibleJob(row: readonly number[]): readonly MachineOperation[] | null {
  const operations: MachineOperation[] = [];
  let at = 1;
  for (let step = 0; step < (row[0] ?? 0); step++) {
    const count = row[at++] ?? 0;
    if (count < 1 || at + 2 * count > row.length) return null;
    const ways: MachineAlternative[] = [];
    for (let way = 0; way < count; way++, at += 2)
      ways.push({ machine: row[at] ?? -1, duration: row[at + 1] ?? -1 });
    operations.push(ways);
  }
  return at === row.length ? operations : null;
}

/**
 * A flexible job shop: a row "jobs machines" (a third number, the mean of alternatives, may follow), then a row per
 * job: how many operations, and for each how many alternatives and their machines and durations. Null for other texts.
 */
export function readFlexibleJobShop(text: string): MachineProblem | null {
  const file = bodyOf(numberRows(text));
  if (file?.body.length !== file?.jobs || file === null) return null;
  const jobs: (readonly MachineOperation[])[] = [];
  for (const row of file.body) {
    const job = flexibleJob(row);
    if (job === null) return null;
    jobs.push(job);
  }
  return counted({ machines: file.machines, jobs });
}
