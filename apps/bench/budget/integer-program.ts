import highs from 'highs';
import type { BudgetProblem } from '#libs/choice';

// The package's types describe its CommonJS build; what Node imports is the function itself.
const loadSolver = highs as unknown as typeof highs.default;

export interface ProgramAnswer {
  readonly benefit: number | null;
  readonly proven: boolean;
  readonly ms: number;
}

/** The problem as an integer program in the LP file format: x a line, y a step that is paid for. */
export function programText({ lines, steps = [], budgetCents }: BudgetProblem): string {
  const lineAt = new Map(lines.map(({ id }, at) => [id, at]));
  const stepAt = new Map(steps.map(({ id }, at) => [id, at]));
  const used = new Set(lines.flatMap((line) => line.steps ?? []));
  const paid = steps.filter(({ id }) => used.has(id));
  const price = [
    ...lines.map((line, at) => `${line.cents ?? 0} x${at}`),
    ...paid.map((step) => `${step.cents} y${stepAt.get(step.id)}`),
  ];
  const rows = [
    `${price.join(' + ')} <= ${budgetCents}`,
    ...lines.flatMap((line, at) => [
      ...[...new Set(line.steps ?? [])].map((step) => `x${at} - y${stepAt.get(step)} <= 0`),
      ...(line.requires ?? []).map((id) => `x${at} - x${lineAt.get(id)} <= 0`),
      ...(line.excludes ?? []).map((id) => `x${at} + x${lineAt.get(id)} <= 1`),
      ...(line.mustInclude === true ? [`x${at} >= 1`] : []),
    ]),
  ];
  return [
    'Maximize',
    ` obj: ${lines.map((line, at) => `${line.benefit} x${at}`).join(' + ')}`,
    'Subject To',
    ...rows.map((row, at) => ` c${at}: ${row}`),
    'Bounds',
    ...paid.map((step) => ` 0 <= y${stepAt.get(step.id)} <= 1`),
    'Binary',
    ...lines.map((_, at) => ` x${at}`),
    'End',
    '',
  ].join('\n');
}

/** A general solver (HiGHS, MIT licence) on the same problem. Benefits are whole, so a gap below one is proof. */
export async function solveProgram(problem: BudgetProblem, limitSeconds: number): Promise<ProgramAnswer> {
  // A fresh one each time: a solver that failed once would fail on all that follow.
  const solver = await loadSolver();
  const text = programText(problem);
  const start = performance.now();
  try {
    const { Status: status, ObjectiveValue: value } = solver.solve(text, {
      time_limit: limitSeconds,
      output_flag: false,
      mip_rel_gap: 0,
      mip_abs_gap: 0.9,
    });
    const benefit = Number.isFinite(value) ? Math.round(value) : null;
    return { benefit, proven: status === 'Optimal', ms: performance.now() - start };
  } catch {
    return { benefit: null, proven: false, ms: performance.now() - start };
  }
}
