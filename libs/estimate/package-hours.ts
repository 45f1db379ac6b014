import type { LabourStep } from '#libs/labour';
import { compareCodePoints } from '#libs/labour';
import { allocate } from '#libs/money';
import { bookHundredths, cents } from '#libs/kernel';
import { effectiveRate } from './effective-rate.js';
import type { EstimateLine } from './estimate-line.js';
import type { LinePackage } from './line-package.js';
import { pairKey } from './pair-key.js';

/** One text for a package: its name and lines, in whatever order they were listed. */
export function packageKey({ name, lineIds }: Pick<LinePackage, 'name' | 'lineIds'>): string {
  return JSON.stringify([name, ...[...new Set(lineIds)].sort(compareCodePoints)]);
}

/** The distinct steps of some lines, in code-point order, each at the dearest rate of the lines that use it. */
export function stepsAtRates(
  lines: readonly EstimateLine[],
): Map<string, { readonly step: LabourStep; readonly rate: number }> {
  const steps = new Map<string, { step: LabourStep; rate: number }>();
  for (const line of lines) {
    for (const step of line.steps) {
      const rate = effectiveRate(line, step);
      const known = steps.get(pairKey(step));
      if (known === undefined || rate > known.rate) steps.set(pairKey(step), { step, rate });
    }
  }
  return new Map([...steps].sort(([a], [b]) => compareCodePoints(a, b)));
}

const hoursOf = (lines: readonly EstimateLine[]): number =>
  [...stepsAtRates(lines).values()].reduce((sum, { step }) => sum + step.hundredths, 0);

/**
 * The hours that a package of these lines may have: not less than any part of the set takes, so that a line more never
 * lowers the hours, and not more than all of it takes.
 */
export function packageRange(lines: readonly EstimateLine[]): { low: number; high: number } {
  const low = Math.max(0, ...lines.map((line) => hoursOf(lines.filter((other) => other !== line))));
  return { low, high: hoursOf(lines) };
}

/**
 * The hours of a package over its steps. What it saves comes off the cheapest labour first, so that no part of the set
 * costs more than the whole; among steps of one rate it is spread by their hours, whole hundredths by largest remainder in
 * code-point order. With one rate that is each step in the same proportion.
 */
export function packageSteps(lines: readonly EstimateLine[], hundredths: number): LabourStep[] {
  const steps = [...stepsAtRates(lines).values()];
  let saved = steps.reduce((sum, { step }) => sum + step.hundredths, 0) - hundredths;
  const hours = new Map<LabourStep, number>();
  for (const rate of [...new Set(steps.map((one) => one.rate))].sort((a, b) => a - b)) {
    const own = steps.filter((one) => one.rate === rate).map(({ step }) => step);
    const whole = own.reduce((sum, step) => sum + step.hundredths, 0);
    const off = Math.min(saved, whole);
    saved -= off;
    const parts = allocate(
      cents(whole - off),
      own.map((step) => step.hundredths),
    );
    own.forEach((step, at) => hours.set(step, parts[at] ?? 0));
  }
  return steps.map(({ step }) => ({
    step: step.step,
    position: step.position,
    hundredths: bookHundredths(hours.get(step) ?? 0),
  }));
}
