import type { Part } from './parts-of.js';
import { isPoint } from './spread.js';
import type { Spread } from './spread.js';
import { fillUniform, streamOf } from './stream.js';
import { triangularMean, triangularQuantiles } from './triangular.js';

/** A figure of every draw: the same in all of them, or one for each. */
export interface Drawn {
  readonly always: number;
  readonly each: Float64Array | null;
}

export interface DrawnPart {
  readonly labour: Drawn;
  /** What the labour is expected to be, before the common factor: the part of it that the factor moves. */
  readonly expectedLabour: number;
  readonly other: Drawn;
  readonly perOther: number;
  readonly otherBears: number;
  /** The base of its supplies, where that is neither its labour nor the rest. */
  readonly base: Drawn;
}

export interface DrawTerms {
  readonly seed: number;
  readonly draws: number;
  readonly common: Float64Array | null;
  /** `perBase` of the supplies. */
  readonly perBase: number;
}

const NEVER: Drawn = { always: 0, each: null };

/** Draws a part. One with a cap has no labour of its own left, as the cap is on all of it. */
export function drawPart(part: Part, terms: DrawTerms): DrawnPart {
  const { seed, draws } = terms;
  const name = `${part.kind}/${part.id}`;
  const happens =
    part.chance < 1 ? fillUniform(streamOf(seed, `${name}/happens`), new Float64Array(draws)) : null;
  const onlyIf = (drawn: Drawn): Drawn => (happens === null ? drawn : keptWhere(happens, part.chance, drawn));
  const labour = drawSpread(part.labour, `${name}/labour`, terms);
  const other = drawSpread(part.other, `${name}/other`, terms);
  if (part.cap !== null) {
    const { whole, base } = capped(part, part.cap, { labour, other }, terms);
    const rest = { labour: NEVER, expectedLabour: 0, perOther: 1, otherBears: 0 };
    return { ...rest, other: onlyIf(whole), base: onlyIf(base) };
  }
  return {
    labour: onlyIf(labour),
    expectedLabour: part.chance * triangularMean(part.labour),
    other: onlyIf(other),
    perOther: part.perOther,
    otherBears: part.otherBears,
    base: NEVER,
  };
}

function drawSpread(spread: Spread, name: string, { seed, draws }: DrawTerms): Drawn {
  if (isPoint(spread)) return { always: spread.likely, each: null };
  const uniform = fillUniform(streamOf(seed, name), new Float64Array(draws));
  return { always: 0, each: triangularQuantiles(uniform, spread) };
}

/** Uniform numbers below the chance are the draws in which it happens: a greater chance takes none of them away. */
function keptWhere(happens: Float64Array, chance: number, { always, each }: Drawn): Drawn {
  if (each !== null) {
    for (let at = 0; at < each.length; at++) if ((happens[at] ?? 1) >= chance) each[at] = 0;
    return { always: 0, each };
  }
  if (always === 0) return NEVER;
  const kept = new Float64Array(happens.length);
  for (let at = 0; at < kept.length; at++) if ((happens[at] ?? 1) < chance) kept[at] = always;
  return { always: 0, each: kept };
}

/**
 * The whole extra, tax and common factor in it, and never more than its cap with the supplies that it would bear. Within
 * the cap its base goes to the supplies of the draw; what the cap has cut bears none. Whether the cap is reached is asked with
 * supplies at their rate, so where those of the order are at their own cap, it may be said to be reached a little early.
 */
function capped(
  part: Part,
  cap: number,
  { labour, other }: { readonly labour: Drawn; readonly other: Drawn },
  { draws, common, perBase }: DrawTerms,
): { whole: Drawn; base: Drawn } {
  const whole = new Float64Array(draws);
  add(whole, labour, part.perLabour);
  multiply(whole, common);
  add(whole, other, part.perOther);
  const base = new Float64Array(draws);
  if (perBase > 0) {
    add(base, labour, part.labourBears);
    multiply(base, common);
    add(base, other, part.otherBears);
  }
  for (let at = 0; at < draws; at++) {
    if ((whole[at] ?? 0) + (base[at] ?? 0) * perBase <= cap) continue;
    whole[at] = cap;
    base[at] = 0;
  }
  return { whole: { always: 0, each: whole }, base: perBase > 0 ? { always: 0, each: base } : NEVER };
}

function multiply(sum: Float64Array, factor: Float64Array | null): void {
  if (factor === null) return;
  for (let at = 0; at < sum.length; at++) sum[at] = (sum[at] ?? 0) * (factor[at] ?? 1);
}

/** Adds a figure, times a factor, to a sum by draw. */
export function add(sum: Float64Array, { always, each }: Drawn, factor: number): void {
  if (each !== null)
    for (let at = 0; at < sum.length; at++) sum[at] = (sum[at] ?? 0) + factor * (each[at] ?? 0);
  else if (always !== 0) for (let at = 0; at < sum.length; at++) sum[at] = (sum[at] ?? 0) + factor * always;
}
