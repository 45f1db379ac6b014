import { compareCodePoints } from '#libs/labour';
import type { ChoiceInput } from './check-choice.js';
import { effectiveRate, isCharged, MILLION } from './effective-rate.js';
import type { EstimateLine } from './estimate-line.js';
import { itemsOfLine } from './items-of-line.js';
import type { ItemsOfLine } from './items-of-line.js';
import { pairKey } from './pair-key.js';
import { preparePackages } from './prepare-packages.js';
import type { PreparedPackage } from './prepare-packages.js';

export type PricingTerms = Omit<ChoiceInput, 'chosen'>;

/** A distinct step of an estimate. */
export interface PreparedStep {
  readonly step: string;
  readonly position: string;
  readonly bookHundredths: number;
  /** What is left to sell once that which was agreed to before is taken off. */
  readonly hundredths: number;
}

/** The kinds of charge that are added up apart, because taxes and discounts tell them apart. */
export const CHARGES = ['labour', 'part', 'fluid', 'sublet', 'fee', 'core'] as const;
export const [LABOUR, PART, FLUID, SUBLET, FEE, CORE] = [0, 1, 2, 3, 4, 5] as const;

/** A line by the numbers of its steps, which are those of `PreparedEstimate.steps`. */
export interface PreparedLine {
  readonly at: number;
  readonly line: EstimateLine;
  /** Steps with something left to sell, each once. */
  readonly steps: readonly number[];
  /** For each of them its rate on this line, as the index in `PreparedEstimate.rates`. */
  readonly ranks: readonly number[];
  readonly isCharged: boolean;
  readonly items: ItemsOfLine;
  /** By `CHARGES`, after discounts; labour is none of them. */
  readonly charges: readonly number[];
}

/** An estimate read once, so that many choices of its lines can be priced quickly. */
export interface PreparedEstimate {
  readonly terms: PricingTerms;
  /** In code-point order of their ids, which is the order in which odd cents fall. */
  readonly lines: readonly PreparedLine[];
  readonly byId: ReadonlyMap<string, PreparedLine>;
  readonly steps: readonly PreparedStep[];
  /** Distinct rates in millionths of a cent per hour, the dearest first. */
  readonly rates: readonly number[];
  readonly packages: readonly PreparedPackage[];
  /** What a discount of the order leaves of labour. */
  readonly keepPpm: number;
}

function chargesOf({ items, coreCents }: ItemsOfLine): number[] {
  const charges = [0, 0, 0, 0, 0, coreCents as number];
  for (const { item, cents } of items) {
    const at = CHARGES.indexOf(item.kind);
    charges[at] = (charges[at] ?? 0) + cents;
  }
  return charges;
}

/** Numbers for the distinct steps of all lines, and what is left of each. */
function numberSteps({ lines, given }: PricingTerms): {
  numbers: Map<string, number>;
  steps: PreparedStep[];
} {
  const agreed = new Map(given.steps.map((pair) => [pairKey(pair), pair.hundredths ?? Infinity]));
  const numbers = new Map<string, number>();
  const steps: PreparedStep[] = [];
  for (const line of lines) {
    for (const { step, position, hundredths } of line.steps) {
      const key = pairKey({ step, position });
      if (numbers.has(key)) continue;
      numbers.set(key, steps.length);
      // A step of no hours is kept for its explanation, one that is agreed to in full is not.
      const before = agreed.get(key);
      const left = before === undefined ? hundredths : hundredths > before ? hundredths - before : -1;
      steps.push({ step, position, bookHundredths: hundredths, hundredths: left });
    }
  }
  return { numbers, steps };
}

function distinctRates(lines: readonly EstimateLine[]): number[] {
  const rates = new Set(lines.flatMap((line) => line.steps.map((step) => effectiveRate(line, step))));
  return [...rates].sort((a, b) => b - a);
}

export function prepareEstimate(terms: PricingTerms): PreparedEstimate {
  const sorted = [...terms.lines].sort((left, right) => compareCodePoints(left.id, right.id));
  const { numbers, steps } = numberSteps({ ...terms, lines: sorted });
  const rates = distinctRates(sorted);
  const rankOf = new Map(rates.map((rate, rank) => [rate, rank]));
  const lines = sorted.map((line, at): PreparedLine => {
    const ranks = new Map<number, number>();
    for (const step of line.steps) {
      const number = numbers.get(pairKey(step)) ?? 0;
      if ((steps[number]?.hundredths ?? -1) < 0) continue;
      const rank = rankOf.get(effectiveRate(line, step)) ?? 0;
      ranks.set(number, Math.min(rank, ranks.get(number) ?? rank));
    }
    const items = itemsOfLine(line, terms.orderDiscount);
    return {
      at,
      line,
      steps: [...ranks.keys()],
      ranks: [...ranks.values()],
      isCharged: isCharged(line),
      items,
      charges: chargesOf(items),
    };
  });
  return {
    terms,
    lines,
    byId: new Map(lines.map((line) => [line.line.id, line])),
    steps,
    rates,
    packages: preparePackages(terms, sorted, numbers, steps),
    keepPpm: MILLION - (terms.orderDiscount?.labourPpm ?? 0),
  };
}
