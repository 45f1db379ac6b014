import type { MachineProblem } from './machine-problem.js';

/**
 * A problem in flat arrays. Operations are numbered through job by job; the number `size` stands for "none" and has a
 * place in every array by operation, so that the inner loops need no case for it.
 */
export interface Layout {
  readonly size: number;
  readonly machines: number;
  readonly jobs: number;
  /** The operation before and after in the same job. */
  readonly jobBefore: Int32Array;
  readonly jobAfter: Int32Array;
  readonly jobOf: Int32Array;
  readonly firstOfJob: Int32Array;
  readonly lastOfJob: Int32Array;
  /** The alternatives of operation `o` are from `from[o]` up to before `from[o + 1]`. */
  readonly from: Int32Array;
  readonly machineOf: Int32Array;
  readonly durationOf: Int32Array;
  /** The shortest duration of each operation. */
  readonly least: Int32Array;
  /** Whether any operation has a choice of machines. */
  readonly isFlexible: boolean;
}

/** The flat form of a problem; of several alternatives on the same machine only the shortest is kept. */
export function layoutOf(problem: MachineProblem): Layout {
  const operations = problem.jobs.flatMap((job) => [...job]);
  const size = operations.length;
  const jobs = problem.jobs.filter((job) => job.length > 0);
  const jobBefore = new Int32Array(size + 1).fill(size);
  const jobAfter = new Int32Array(size + 1).fill(size);
  const jobOf = new Int32Array(size + 1).fill(-1);
  const firstOfJob = new Int32Array(jobs.length);
  const lastOfJob = new Int32Array(jobs.length);
  let at = 0;
  jobs.forEach((job, number) => {
    firstOfJob[number] = at;
    for (let step = 0; step < job.length; step++, at++) {
      jobOf[at] = number;
      if (step > 0) jobBefore[at] = at - 1;
      if (step + 1 < job.length) jobAfter[at] = at + 1;
    }
    lastOfJob[number] = at - 1;
  });
  const kept = operations.map((ways) =>
    ways.filter((way, place) =>
      ways.every(
        (other, elsewhere) =>
          other.machine !== way.machine ||
          other.duration > way.duration ||
          (other.duration === way.duration && elsewhere >= place),
      ),
    ),
  );
  const from = new Int32Array(size + 2);
  kept.forEach((ways, operation) => (from[operation + 1] = (from[operation] ?? 0) + ways.length));
  from[size + 1] = from[size] ?? 0;
  const flat = kept.flat();
  return {
    size,
    machines: problem.machines,
    jobs: jobs.length,
    jobBefore,
    jobAfter,
    jobOf,
    firstOfJob,
    lastOfJob,
    from,
    machineOf: Int32Array.from(flat, (way) => way.machine),
    durationOf: Int32Array.from(flat, (way) => way.duration),
    least: Int32Array.from([...kept.map((ways) => Math.min(...ways.map((way) => way.duration))), 0]),
    isFlexible: kept.some((ways) => ways.length > 1),
  };
}
