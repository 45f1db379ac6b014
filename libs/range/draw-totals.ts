import { commonFactor } from './common-factor.js';
import { add, drawPart } from './draw-part.js';
import type { DrawnPart } from './draw-part.js';
import { fraction, partsOf } from './parts-of.js';
import type { Part } from './parts-of.js';
import type { RangeEffort, RangeInput } from './range-input.js';
import { perBase, suppliesOfDraw } from './supplies-of-draw.js';

export interface DrawnTotals {
  readonly parts: readonly Part[];
  readonly drawn: readonly DrawnPart[];
  readonly common: Float64Array | null;
  /** Tax left out. */
  readonly supplies: Float64Array;
  /** What the owner would pay in each draw, in cents with fractions. */
  readonly totals: Float64Array;
}

export function drawTotals(input: RangeInput, { seed, draws }: RangeEffort): DrawnTotals {
  const common = commonFactor(fraction(input.commonSpreadPpm), seed, draws);
  const parts = partsOf(input);
  const perLabour = 1 + fraction(input.labourTaxPpm);
  const perSupply = 1 + fraction(input.supplies?.taxPpm ?? 0);
  const terms = { seed, draws, common, perBase: perBase(input.supplies) };
  const drawn = parts.map((part) => drawPart(part, terms));
  const labour = new Float64Array(draws);
  const other = new Float64Array(draws);
  const otherBase = new Float64Array(draws);
  for (const own of drawn) {
    add(labour, own.labour, 1);
    add(other, own.other, own.perOther);
    add(otherBase, own.other, own.otherBears);
    add(otherBase, own.base, 1);
  }
  const labourBears = input.supplies === null || input.supplies.base === 'parts' ? 0 : 1;
  const charge = suppliesOfDraw(input.supplies);
  const always = input.fixedCents + putRight(input, parts);
  const supplies = new Float64Array(draws);
  const totals = new Float64Array(draws);
  for (let at = 0; at < draws; at++) {
    const work = (labour[at] ?? 0) * (common?.[at] ?? 1);
    const own = charge(work * labourBears + (otherBase[at] ?? 0));
    supplies[at] = own;
    totals[at] = always + work * perLabour + (other[at] ?? 0) + own * perSupply;
  }
  return { parts, drawn, common, supplies, totals };
}

/** What the exact price is above the sum of its parts without rounding. */
function putRight(input: RangeInput, parts: readonly Part[]): number {
  if (input.likelyCents === undefined) return 0;
  const lines = parts.filter(({ kind }) => kind === 'line');
  const sum = (of: (part: Part) => number): number => lines.reduce((total, part) => total + of(part), 0);
  const taxed = sum((part) => part.labour.likely * part.perLabour + part.other.likely * part.perOther);
  const base = sum((part) => part.labour.likely * part.labourBears + part.other.likely * part.otherBears);
  const supplies = suppliesOfDraw(input.supplies)(base);
  return input.likelyCents - taxed - supplies * (1 + fraction(input.supplies?.taxPpm ?? 0));
}
