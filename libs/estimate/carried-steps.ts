import { bookHundredths } from '#libs/kernel';
import type { BookHundredths } from '#libs/kernel';
import type { AlreadyAgreed } from './already-agreed.js';
import type { EstimateLine } from './estimate-line.js';
import { labourOfChoice } from './labour-of-choice.js';
import type { LinePackage } from './line-package.js';
import { prepareEstimate } from './prepare-estimate.js';

/** A step as a line was sold it: its hours, and how many chosen lines carry them together. */
export interface CarriedStep {
  readonly step: string;
  readonly position: string;
  readonly hundredths: BookHundredths;
  readonly sharedBy: number;
  /** Nobody pays for it: the line is not charged. */
  readonly unpaid?: true;
  /** The package under which it was sold (`packageKey`); `hundredths` are those of the step by itself. */
  readonly package?: string;
}

/**
 * What each chosen line carries of the steps that the choice sells. Kept with the decision, so that later one can tell
 * how much of a step somebody has agreed to pay (`agreedFrom`), whatever was declined since. Of the lines that share a
 * step, those that are not charged carry none of it while another pays.
 */
export function carriedSteps(
  lines: readonly EstimateLine[],
  chosen: readonly string[],
  given: AlreadyAgreed,
  packages: readonly LinePackage[] = [],
): Map<string, CarriedStep[]> {
  const policy = { taxes: [], taxRounding: 'invoice', supplies: null } as const;
  const prepared = prepareEstimate({ lines, given, policy, packages });
  const wanted = new Set(chosen);
  const sold = prepared.lines.filter(({ line }) => wanted.has(line.id));
  const labour = labourOfChoice(prepared, sold);
  const under = new Map(
    labour.packages.flatMap(({ key, hours }) => [...hours.keys()].map((step) => [step, key])),
  );
  return new Map(
    sold.map((line) => [
      line.line.id,
      line.steps
        .filter((number) => labour.carries(line, number))
        .flatMap((number): CarriedStep[] => {
          const step = prepared.steps[number];
          if (step === undefined) return [];
          const key = under.get(number);
          return [
            {
              step: step.step,
              position: step.position,
              hundredths: bookHundredths(step.hundredths),
              sharedBy: labour.carriersOf(number),
              ...(line.isCharged ? {} : { unpaid: true }),
              ...(key === undefined ? {} : { package: key }),
            },
          ];
        }),
    ]),
  );
}
