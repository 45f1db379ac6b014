import type { Part } from './parts-of.js';
import { isPoint, point } from './spread.js';
import { triangularMean, triangularVariance } from './triangular.js';

/** Of a part: of its labour (before the common factor) and of its other cents, as cents of the total. */
export interface Moments {
  readonly labourMean: number;
  readonly labourVariance: number;
  readonly otherMean: number;
  readonly otherVariance: number;
  /** Both come together where the part has a chance. */
  readonly covariance: number;
}

/**
 * Mean and variance of B·X and B·Y for B of one with its chance p and of zero else, X and Y triangular, all independent:
 * E = p·μ, Var = p·(σ² + μ²) - p²·μ², Cov = p·(1 - p)·μx·μy. Multiplied by what a cent makes of the total.
 */
export function momentsOf(part: Part, perLabour: number, perOther: number): Moments {
  const { chance, labour, other } = part;
  const work = {
    mean: triangularMean(labour) * perLabour,
    variance: triangularVariance(labour) * perLabour ** 2,
  };
  const rest = {
    mean: triangularMean(other) * perOther,
    variance: triangularVariance(other) * perOther ** 2,
  };
  const spreadOf = ({ mean, variance }: { mean: number; variance: number }): number =>
    chance * variance + chance * (1 - chance) * mean * mean;
  return {
    labourMean: chance * work.mean,
    labourVariance: spreadOf(work),
    otherMean: chance * rest.mean,
    otherVariance: spreadOf(rest),
    covariance: chance * (1 - chance) * work.mean * rest.mean,
  };
}

/**
 * The part without its cap where the cap cannot come into play, or where it always does; null where it depends on the
 * draw and there is no closed form. `perBase` is what a cent of base makes of the total.
 */
export function withinCap(part: Part, isMoved: boolean, perBase: number): Part | null {
  const { cap, labour, other } = part;
  if (cap === null) return part;
  const perLabour = part.perLabour + part.labourBears * perBase;
  const perOther = part.perOther + part.otherBears * perBase;
  const canGrow = isMoved && labour.high > 0;
  const most = canGrow ? Infinity : labour.high * perLabour + other.high * perOther;
  if (most <= cap) return { ...part, cap: null };
  if (!isPoint(labour) || !isPoint(other) || canGrow) return null;
  const cut = { perLabour: 1, perOther: 1, labourBears: 0, otherBears: 0, cap: null };
  return { ...part, ...cut, labour: point(0), other: point(cap) };
}
