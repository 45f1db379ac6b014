import type { Answer, GeneralAnswer } from './format.js';

/** One instance's line. Times are in milliseconds. */
export interface Line {
  readonly file: string;
  /** Infinite without a plan, which JSON writes as null. */
  readonly objective: number;
  readonly bestKnown: number | null;
  /** How far beyond the best known, in per cent of it; null without one, or when it is zero and not reached. */
  readonly gapPercent: number | null;
  readonly bound: number;
  readonly ms: number;
  readonly firstMs: number;
  /** What a general solver made of it, when it was asked. */
  readonly against?: GeneralAnswer;
  /** Only there when the checker found something. */
  readonly violations?: readonly string[];
}

export interface Summary {
  readonly summary: true;
  readonly instances: number;
  /** How many have a best-known value, and how many of those reach it. */
  readonly withBestKnown: number;
  readonly atBestKnown: number;
  /** How many are proven best by the bound. */
  readonly proven: number;
  /** Over all instances; null when one has no plan. */
  readonly objectiveSum: number;
  /** Over those that have a best-known value. */
  readonly bestKnownSum: number;
  readonly meanGapPercent: number | null;
  readonly worstGapPercent: number | null;
  readonly violations: number;
  /** How often the plan was better than, as good as and worse than the general solver's; only when it was asked. */
  readonly against?: { readonly better: number; readonly equal: number; readonly worse: number };
}

const rounded = (value: number, digits: number): number => Number(value.toFixed(digits));

function gapOf(objective: number, best: number | null): number | null {
  if (best === null) return null;
  if (objective === best) return 0;
  return best === 0 ? null : rounded((100 * (objective - best)) / best, 3);
}

export function lineOf(
  file: string,
  number: number | null,
  { objective, bound, firstMs, flaws }: Answer,
  bestKnown: number | null,
  ms: number,
): Line {
  return {
    file: number === null ? file : `${file}#${number}`,
    objective,
    bestKnown,
    gapPercent: gapOf(objective, bestKnown),
    bound,
    ms: rounded(ms, 0),
    firstMs: rounded(firstMs, 2),
    ...(flaws.length > 0 ? { violations: flaws } : {}),
  };
}

/** Better, equal or worse than the general solver, by lines; no plan of its own is worse than any. */
function comparisonOf(lines: readonly Line[]): Pick<Summary, 'against'> {
  const differences = lines.flatMap(({ objective, against }) =>
    against === undefined ? [] : [objective - (against.objective ?? Infinity)],
  );
  if (differences.length === 0) return {};
  return {
    against: {
      better: differences.filter((difference) => difference < 0).length,
      equal: differences.filter((difference) => difference === 0).length,
      worse: differences.filter((difference) => difference > 0).length,
    },
  };
}

export function summaryOf(lines: readonly Line[]): Summary {
  const gaps = lines.flatMap(({ gapPercent }) => (gapPercent === null ? [] : [gapPercent]));
  const isAny = gaps.length > 0;
  return {
    summary: true,
    instances: lines.length,
    withBestKnown: lines.filter(({ bestKnown }) => bestKnown !== null).length,
    atBestKnown: lines.filter(({ objective, bestKnown }) => bestKnown !== null && objective <= bestKnown)
      .length,
    proven: lines.filter(({ objective, bound }) => objective === bound).length,
    objectiveSum: lines.reduce((sum, { objective }) => sum + objective, 0),
    bestKnownSum: lines.reduce((sum, { bestKnown }) => sum + (bestKnown ?? 0), 0),
    meanGapPercent: isAny ? rounded(gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length, 3) : null,
    worstGapPercent: isAny ? Math.max(...gaps) : null,
    violations: lines.filter(({ violations }) => violations !== undefined).length,
    ...comparisonOf(lines),
  };
}
