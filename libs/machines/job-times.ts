import type { Layout } from './layout.js';

/** What must at least come before each operation within its job, and after it, everything in its shortest way. */
export interface JobTimes {
  readonly heads: Int32Array;
  readonly tails: Int32Array;
  /** The longest job. */
  readonly longest: number;
}

export function jobTimes(layout: Layout): JobTimes {
  const { size, least, jobBefore, jobAfter } = layout;
  const heads = new Int32Array(size + 1);
  const tails = new Int32Array(size + 1);
  let longest = 0;
  for (let o = 0; o < size; o++) {
    const before = jobBefore[o] ?? size;
    if (before !== size) heads[o] = (heads[before] ?? 0) + (least[before] ?? 0);
  }
  for (let o = size - 1; o >= 0; o--) {
    const after = jobAfter[o] ?? size;
    if (after !== size) tails[o] = (tails[after] ?? 0) + (least[after] ?? 0);
    longest = Math.max(longest, (heads[o] ?? 0) + (least[o] ?? 0) + (tails[o] ?? 0));
  }
  return { heads, tails, longest };
}
