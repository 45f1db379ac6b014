import { bookHundredths, cents, ok } from '#libs/kernel';
import type { BookHundredths, Cents, Result } from '#libs/kernel';
import { labourCents, shares } from '#libs/labour';
import type { LabourFault, LabourStep } from '#libs/labour';
import { largestRemainder } from '#libs/money';
import type { AlreadyAgreed } from './already-agreed.js';
import type { EstimateLine } from './estimate-line.js';
import { lessAgreed } from './less-agreed.js';
import { pairKey } from './pair-key.js';

/** A line as one class of labour sees it: with its steps of that class only. */
export interface ClassMember {
  readonly id: string;
  readonly rateCentsPerHour: Cents;
  readonly steps: readonly LabourStep[];
  readonly hundredths: BookHundredths;
  readonly cents: Cents;
}

/** All labour that is sold at one rate. */
export interface LabourClass {
  readonly rateCentsPerHour: Cents;
  readonly hundredths: BookHundredths;
  readonly cents: Cents;
  readonly members: readonly ClassMember[];
}

type Worker = Pick<ClassMember, 'id' | 'rateCentsPerHour' | 'steps'>;

/** The hours of each worker, and the exact money (cents times hundredths) that each carries before rounding. */
function weigh(
  workers: readonly Worker[],
): Result<{ hours: Map<string, BookHundredths>; weights: bigint[] }, LabourFault> {
  const hours = shares(workers);
  if (!hours.ok) return hours;
  const levels = [...new Set(workers.map((worker) => worker.rateCentsPerHour))].sort((a, b) => a - b);
  const weights = new Map(workers.map(({ id }) => [id, 0n]));
  let below = 0;
  for (const level of levels) {
    const isLowest = level === levels[0];
    const sharing = isLowest ? hours : shares(workers.filter((worker) => worker.rateCentsPerHour >= level));
    if (!sharing.ok) return sharing;
    for (const [id, share] of sharing.value) {
      weights.set(id, (weights.get(id) ?? 0n) + BigInt(level - below) * BigInt(share));
    }
    below = level;
  }
  return ok({ hours: hours.value, weights: workers.map(({ id }) => weights.get(id) ?? 0n) });
}

function priceClass(rateCentsPerHour: Cents, workers: readonly Worker[]): Result<LabourClass, LabourFault> {
  const weighed = weigh(workers);
  if (!weighed.ok) return weighed;
  const { hours, weights } = weighed.value;
  const hundredths = bookHundredths([...hours.values()].reduce((sum, share) => sum + share, 0));
  const total = labourCents(hundredths, rateCentsPerHour);
  const parts = largestRemainder(BigInt(total), weights);
  const members = workers.map((worker, at) => ({
    ...worker,
    hundredths: hours.get(worker.id) ?? bookHundredths(0),
    cents: cents(Number(parts[at] ?? 0n)),
  }));
  return ok({ rateCentsPerHour, hundredths, cents: total, members });
}

/**
 * The labour of a choice by rate, the dearest first. `lines` are in code-point order of their ids, so that an odd cent
 * falls to the same line in whatever order the lines were chosen.
 *
 * Each distinct step that is not agreed to yet is sold once, at the dearest rate of the lines that use it, and each
 * class of labour is rounded once, half up. Were a step sold at a mixture of rates instead, adding a cheap line to a
 * dear one would lower the bill. Its hours are split evenly among the lines that share it; its money as in the
 * best-known game of this kind (Littlechild and Owen 1973): everybody who shares it pays the cheapest rate together,
 * those with a dearer rate the difference to the next, and so on, so that no line pays for a rate above its own. With one rate this is
 * the split of the hours. The cents are placed by largest remainder.
 */
export function labourOfChoice(
  chosen: readonly EstimateLine[],
  given: AlreadyAgreed,
): Result<LabourClass[], LabourFault> {
  const left = lessAgreed(given);
  const lines = chosen.map((line) => ({ ...line, steps: left(line.steps) }));
  const dearest = new Map<string, Cents>();
  for (const { steps, rateCentsPerHour } of lines) {
    for (const key of steps.map(pairKey)) {
      const known = dearest.get(key);
      if (known === undefined || rateCentsPerHour > known) dearest.set(key, rateCentsPerHour);
    }
  }
  const classes: LabourClass[] = [];
  for (const rate of [...new Set(dearest.values())].sort((a, b) => b - a)) {
    const workers = lines
      .map(({ id, rateCentsPerHour, steps }) => ({
        id,
        rateCentsPerHour,
        steps: steps.filter((step) => dearest.get(pairKey(step)) === rate),
      }))
      .filter((worker) => worker.steps.length > 0);
    const priced = priceClass(rate, workers);
    if (!priced.ok) return priced;
    classes.push(priced.value);
  }
  return ok(classes);
}
