import { cents, ok, ppm } from '#libs/kernel';
import type { Cents, Result } from '#libs/kernel';
import { allocate } from '#libs/money';
import { checkRange } from './check-range.js';
import { momentsOf, withinCap } from './moments.js';
import type { Moments } from './moments.js';
import { fraction, partsOf } from './parts-of.js';
import type { Part } from './parts-of.js';
import type { RangeFault, RangeInput, RangeShare, RangeSupplies } from './range-input.js';
import { perBase, suppliesOfDraw } from './supplies-of-draw.js';

export interface ClosedForm {
  readonly meanCents: Cents;
  readonly sdCents: Cents;
  /** As `range` gives them. */
  readonly shares: readonly RangeShare[];
}

/** Supplies as a straight line: what a cent of base adds, and what they come to without any. */
interface Line {
  readonly perBase: number;
  readonly always: number;
}

const NO_SUPPLIES: Line = { perBase: 0, always: 0 };

/**
 * Mean, standard deviation and shares of a range without drawing it, where a formula gives them: sums of triangular
 * parts, of parts with a chance and, for the common factor C with mean 1 and variance v, of products with it:
 * Var(C·X) = Var X·(1 + v) + v·(E X)². Null where a floor or a cap can come into play, as it then depends on the draw.
 */
export function closedForm(input: RangeInput): Result<ClosedForm | null, RangeFault> {
  const checked = checkRange(input);
  if (!checked.ok) return checked;
  const exact = exactMoments(input);
  if (exact === null) return ok(null);
  const { mean, variances, parts } = exact;
  const variance = variances.reduce((sum, one) => sum + one, 0);
  const shares =
    variance === 0
      ? variances.map(() => 0)
      : allocate(
          cents(1_000_000),
          variances.map((one) => Math.round((one / variance) * 1e15)),
        );
  return ok({
    meanCents: cents(Math.round(mean)),
    sdCents: cents(Math.round(Math.sqrt(variance))),
    shares: [...parts, { kind: 'common' as const, id: null }].map(({ kind, id }, at) => ({
      kind,
      id,
      sharePpm: ppm(shares[at] ?? 0),
    })),
  });
}

/** The mean, and the variance that each part and, last, the common factor causes, with all their digits. */
export function exactMoments(
  input: RangeInput,
): { mean: number; variances: number[]; parts: readonly Part[] } | null {
  const common = fraction(input.commonSpreadPpm) ** 2;
  const parts = partsOf(input).map((part) => withinCap(part, common > 0, perBase(input.supplies)));
  if (!parts.every((part) => part !== null)) return null;
  const supplies = suppliesLine(input.supplies, parts, common > 0);
  if (supplies === null) return null;
  const moments = parts.map((part) =>
    momentsOf(
      part,
      part.perLabour + part.labourBears * supplies.perBase,
      part.perOther + part.otherBears * supplies.perBase,
    ),
  );
  const sum = (value: (one: Moments) => number): number =>
    moments.reduce((total, one) => total + value(one), 0);
  const labour = sum(({ labourMean }) => labourMean);
  return {
    mean: input.fixedCents + supplies.always + labour + sum(({ otherMean }) => otherMean),
    variances: [
      ...moments.map((one) => one.labourVariance * (1 + common) + one.otherVariance + 2 * one.covariance),
      common * labour * labour,
    ],
    parts,
  };
}

/** Null where supplies have a corner within reach: their floor, their cap or what was agreed to before. */
function suppliesLine(supplies: RangeSupplies | null, parts: readonly Part[], isMoved: boolean): Line | null {
  if (supplies === null) return NO_SUPPLIES;
  const total = (of: (part: Part) => number): number => parts.reduce((sum, part) => sum + of(part), 0);
  const highest = total(({ labour, labourBears }) => labour.high * labourBears);
  const most =
    isMoved && highest > 0 ? Infinity : highest + total(({ other, otherBears }) => other.high * otherBears);
  const least = total(({ chance, labour, other, labourBears, otherBears }) =>
    chance < 1 ? 0 : (isMoved ? 0 : labour.low) * labourBears + other.low * otherBears,
  );
  if (most <= 0) return NO_SUPPLIES;
  // Nothing is charged on nothing, which is a corner too, unless some line is sure to be there.
  const isSure = parts.some(
    ({ chance, labour, other, labourBears, otherBears }) =>
      chance === 1 && labour.high * labourBears + other.high * otherBears > 0,
  );
  if (!isSure) return null;
  const { floorCents, givenBaseCents, givenSuppliesCents } = supplies;
  const rated = (base: number): number => fraction(supplies.ratePpm) * (givenBaseCents + base);
  const cap = supplies.capCents ?? Infinity;
  const taxed = 1 + fraction(supplies.taxPpm);
  if (rated(least) >= Math.max(floorCents, givenSuppliesCents) && rated(most) <= cap)
    return { perBase: perBase(supplies), always: (rated(0) - givenSuppliesCents) * taxed };
  const isFlat = least > 0 && (rated(most) <= floorCents || rated(least) >= cap);
  return isFlat ? { perBase: 0, always: suppliesOfDraw(supplies)(least) * taxed } : null;
}
