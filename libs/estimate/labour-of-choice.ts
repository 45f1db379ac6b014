import { bookHundredths, cents } from '#libs/kernel';
import type { BookHundredths, Cents } from '#libs/kernel';
import { largestRemainder } from '#libs/money';
import { labourMoney } from './effective-rate.js';
import { packagesInForce } from './packages-in-force.js';
import type { PreparedEstimate, PreparedLine } from './prepare-estimate.js';
import type { PreparedPackage } from './prepare-packages.js';
import { splitCents } from './split-cents.js';
import { splitHours } from './split-hours.js';

/** A line as one class of labour sees it: with its steps of that class only. */
export interface ClassMember {
  /** Its place among the chosen lines. */
  readonly at: number;
  readonly line: PreparedLine;
  readonly steps: readonly number[];
  readonly hundredths: BookHundredths;
  readonly cents: Cents;
}

/** All labour that is sold at one rate. */
export interface LabourClass {
  /** In millionths of a cent per hour, before an order discount. */
  readonly rate: number;
  readonly hundredths: BookHundredths;
  readonly cents: Cents;
  readonly members: readonly ClassMember[];
}

export interface LabourOfChoice {
  /** The dearest first. */
  readonly classes: readonly LabourClass[];
  readonly packages: readonly PreparedPackage[];
  /** What each step is sold at, under the packages in force. */
  readonly hoursOf: (step: number) => number;
  /** How many chosen lines carry a step. */
  readonly carriersOf: (step: number) => number;
  /** Whether a line carries a step: one that is not charged leaves it to those that pay for it. */
  readonly carries: (line: PreparedLine, step: number) => boolean;
}

interface Worker {
  readonly at: number;
  readonly line: PreparedLine;
  readonly steps: number[];
  /** The rates of its steps on this line, as ranks. */
  readonly ranks: number[];
}

/**
 * The exact money (millionths of a cent per hour times hundredths) that each worker carries of a class before rounding:
 * everybody who shares a step pays the cheapest rate together, those with a dearer one the difference to the next.
 */
function weightsOf(
  workers: readonly Worker[],
  hours: readonly number[],
  rates: readonly number[],
  hoursOf: (step: number) => number,
): bigint[] {
  const ranks = [...new Set(workers.flatMap((worker) => worker.ranks))].sort((a, b) => b - a);
  const weights = workers.map(() => 0n);
  let below = 0;
  ranks.forEach((rank, level) => {
    const rate = rates[rank] ?? 0;
    const payers = workers.map(({ steps, ranks: own }) =>
      level === 0 ? steps : steps.filter((_, index) => (own[index] ?? 0) <= rank),
    );
    const shares = level === 0 ? hours : splitHours(payers, hoursOf);
    shares.forEach((share, at) => {
      weights[at] = (weights[at] ?? 0n) + BigInt(rate - below) * BigInt(share);
    });
    below = rate;
  });
  return weights;
}

function priceClass(
  rate: number,
  workers: readonly Worker[],
  { rates, keepPpm }: PreparedEstimate,
  hoursOf: (step: number) => number,
): LabourClass {
  const hours = splitHours(
    workers.map(({ steps }) => steps),
    hoursOf,
  );
  const hundredths = bookHundredths(hours.reduce((sum, share) => sum + share, 0));
  const total = cents(labourMoney(hundredths, rate, keepPpm));
  const isMixed = workers.some(({ ranks }) => ranks.some((rank) => rates[rank] !== rate));
  const parts = isMixed
    ? largestRemainder(BigInt(total), weightsOf(workers, hours, rates, hoursOf)).map(Number)
    : splitCents(total, hours);
  const members = workers.map(({ at, line, steps }, index): ClassMember => ({
    at,
    line,
    steps,
    hundredths: bookHundredths(hours[index] ?? 0),
    cents: cents(parts[index] ?? 0),
  }));
  return { rate, hundredths, cents: total, members };
}

/** What steps are sold at: what is left of them, or less under a package. */
function hoursUnder(
  { steps }: PreparedEstimate,
  packages: readonly PreparedPackage[],
): (step: number) => number {
  if (packages.length === 0) return (step) => steps[step]?.hundredths ?? 0;
  const scaled = new Map(packages.flatMap(({ hours }) => [...hours]));
  return (step) => scaled.get(step) ?? steps[step]?.hundredths ?? 0;
}

/** Who carries each step, and the dearest rate among those who use it. */
function soldSteps(chosen: readonly PreparedLine[]): {
  dearest: Map<number, number>;
  carriers: Map<number, number>;
  charged: Set<number>;
} {
  const dearest = new Map<number, number>();
  const paying = new Map<number, number>();
  const using = new Map<number, number>();
  for (const { steps, ranks, isCharged } of chosen) {
    const counted = isCharged ? paying : using;
    for (let index = 0; index < steps.length; index++) {
      const step = steps[index] ?? 0;
      const rank = ranks[index] ?? 0;
      const known = dearest.get(step);
      if (known === undefined || rank < known) dearest.set(step, rank);
      counted.set(step, (counted.get(step) ?? 0) + 1);
    }
  }
  return { dearest, carriers: new Map([...using, ...paying]), charged: new Set(paying.keys()) };
}

/**
 * The labour of a choice by rate. `chosen` are in the order of the prepared estimate, so that an odd cent falls to the
 * same line in whatever order the lines were chosen.
 *
 * Each distinct step that is not agreed to yet is sold once, at the dearest rate of the lines that use it, and each
 * class of labour is rounded once, half up. Were a step sold at a mixture of rates instead, adding a cheap line to a
 * dear one would lower the bill; for the same reason a discount or no charge is a lower rate, so that it holds for what
 * no other line pays for. A step's hours are split evenly among the lines that share it and pay for it, or among all of
 * them where nobody pays; its money as in the best-known game of this kind (Littlechild and Owen 1973), so that no line
 * pays for a rate above its own. With one rate this is the split of the hours. The cents are placed by largest remainder.
 */
export function labourOfChoice(prepared: PreparedEstimate, chosen: readonly PreparedLine[]): LabourOfChoice {
  const isIn = new Set(prepared.packages.length === 0 ? [] : chosen.map(({ at }) => at));
  const packages = packagesInForce(prepared.packages, (at) => isIn.has(at));
  const hoursOf = hoursUnder(prepared, packages);
  const { dearest, carriers, charged } = soldSteps(chosen);
  const carries = (line: PreparedLine, step: number): boolean => line.isCharged || !charged.has(step);
  const classes = new Map<number, Worker[]>();
  chosen.forEach((line, at) => {
    line.steps.forEach((step, index) => {
      if (!carries(line, step)) return;
      const rank = dearest.get(step) ?? 0;
      const workers = classes.get(rank) ?? [];
      classes.set(rank, workers);
      let worker = workers.at(-1);
      if (worker?.at !== at) workers.push((worker = { at, line, steps: [], ranks: [] }));
      worker.steps.push(step);
      worker.ranks.push(line.ranks[index] ?? 0);
    });
  });
  const ordered = [...classes].sort(([a], [b]) => a - b);
  return {
    classes: ordered.map(([rank, workers]) =>
      priceClass(prepared.rates[rank] ?? 0, workers, prepared, hoursOf),
    ),
    packages,
    hoursOf,
    carriersOf: (step) => carriers.get(step) ?? 0,
    carries,
  };
}
