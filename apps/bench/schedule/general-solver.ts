import highs from 'highs';
import type { GeneralAnswer } from './format.js';

// The package's types describe its CommonJS build; what Node imports is the function itself.
const loadSolver = highs as unknown as typeof highs.default;

/**
 * A general solver (HiGHS, MIT licence) on an integer program in the LP file format whose objective is a whole number
 * to be made small, so that a gap below one is proof.
 */
export async function solveGenerally(program: string, limitSeconds: number): Promise<GeneralAnswer> {
  // A fresh one each time: a solver that failed once would fail on all that follow.
  const solver = await loadSolver();
  const begun = performance.now();
  try {
    const { Status: status, ObjectiveValue: value } = solver.solve(program, {
      time_limit: limitSeconds,
      output_flag: false,
      mip_rel_gap: 0,
      mip_abs_gap: 0.9,
    });
    const isPlan = status === 'Optimal' || (status === 'Time limit reached' && Number.isFinite(value));
    const ms = performance.now() - begun;
    return { objective: isPlan ? Math.round(value) : null, proven: status === 'Optimal', ms };
  } catch {
    return { objective: null, proven: false, ms: performance.now() - begun };
  }
}
