import type { RangeInput, RangeLine, RangePartKind } from './range-input.js';
import { point } from './spread.js';
import type { Spread } from './spread.js';

/** A line, a contingency or an unseen checkpoint as the draws see it: cents of labour and other cents, with a chance. */
export interface Part {
  readonly kind: Exclude<RangePartKind, 'common'>;
  readonly id: string;
  /** From 0 to 1; a line has 1. */
  readonly chance: number;
  /** Before tax; the common factor multiplies it. */
  readonly labour: Spread;
  readonly other: Spread;
  /** What a cent of labour, or of the rest, makes of the total, supplies left out. */
  readonly perLabour: number;
  readonly perOther: number;
  /** How much of a cent of labour, or of the rest, supplies are a share of. */
  readonly labourBears: number;
  readonly otherBears: number;
  readonly cap: number | null;
}

export const fraction = (ppm: number): number => ppm / 1_000_000;

export function partsOf(input: RangeInput): Part[] {
  const base = input.supplies?.base;
  const work = ({ id, labour, items, itemsTaxPpm, itemsBearPpm }: RangeLine): Omit<Part, 'kind'> => ({
    id,
    chance: 1,
    labour,
    other: items,
    perLabour: 1 + fraction(input.labourTaxPpm),
    perOther: 1 + fraction(itemsTaxPpm),
    labourBears: base === undefined || base === 'parts' ? 0 : 1,
    otherBears: base === undefined || base === 'labour' ? 0 : fraction(itemsBearPpm ?? 1_000_000),
    cap: null,
  });
  return [
    ...input.lines.map((line): Part => ({ kind: 'line', ...work(line) })),
    ...input.contingencies.map((one): Part => ({
      kind: 'contingency',
      ...work(one),
      chance: fraction(one.chancePpm),
      cap: one.capCents,
    })),
    ...input.unseen.map(({ id, chancePpm, cents }): Part => ({
      kind: 'unseen',
      id,
      chance: fraction(chancePpm),
      labour: point(0),
      other: cents,
      perLabour: 1,
      perOther: 1,
      labourBears: 0,
      otherBears: 0,
      cap: null,
    })),
  ];
}
