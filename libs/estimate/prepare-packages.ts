import { compareCodePoints } from '#libs/labour';
import type { AlreadyAgreed } from './already-agreed.js';
import type { EstimateLine } from './estimate-line.js';
import type { LinePackage } from './line-package.js';
import { packageKey, packageSteps, stepsAtRates } from './package-hours.js';
import { pairKey } from './pair-key.js';
import type { PreparedStep, PricingTerms } from './prepare-estimate.js';

/** A package that some choice of the open lines puts in force. */
export interface PreparedPackage {
  readonly key: string;
  readonly package: LinePackage;
  /** Its lines that are still open, by their place in the prepared estimate: all of them must be chosen. */
  readonly lines: readonly number[];
  /** Other lines that share a step with it: none of them may be chosen. */
  readonly outsiders: readonly number[];
  /** By the number of the step, what is left to sell under the package. */
  readonly hours: ReadonlyMap<number, number>;
  /** What it takes off hours and money; the money in millionths of a cent times hundredths, before an order discount. */
  readonly savedHundredths: number;
  readonly savedMoney: bigint;
  /** Some of its lines were agreed to under it before. */
  readonly isBegun: boolean;
}

/** Whether anything of these steps was agreed to outside the package. */
function isSpoilt(keys: ReadonlySet<string>, given: AlreadyAgreed, key: string): boolean {
  return given.steps.some((pair) => pair.package !== key && pair.hundredths !== 0 && keys.has(pairKey(pair)));
}

/** The hours under a package of what is left of a step: in proportion, a part of a hundredth in the owner's favour. */
function leftUnder(sold: number, { bookHundredths, hundredths }: PreparedStep): number {
  if (bookHundredths === 0 || hundredths <= 0) return 0;
  return Number((BigInt(sold) * BigInt(hundredths)) / BigInt(bookHundredths));
}

function preparePackage(
  own: LinePackage,
  { given }: PricingTerms,
  lines: readonly EstimateLine[],
  numbers: ReadonlyMap<string, number>,
  steps: readonly PreparedStep[],
): PreparedPackage | null {
  const key = packageKey(own);
  const ids = new Set(own.lineIds);
  const agreed = new Set((given.packages ?? []).find((one) => one.package === key)?.lineIds ?? []);
  const members = lines.filter(({ id }) => ids.has(id));
  const open = members.filter(({ id }) => !agreed.has(id));
  const present = new Set(members.map(({ id }) => id));
  const isWhole = [...ids].every((id) => present.has(id));
  if ([...ids].some((id) => !present.has(id) && !agreed.has(id)) || open.length === 0) return null;
  if (own.steps === undefined && !isWhole) return null;
  const sold = own.steps ?? packageSteps(members, own.hundredths);
  const keys = new Set(sold.map(pairKey));
  if (isSpoilt(keys, given, key)) return null;

  const hours = new Map<number, number>();
  const rates = stepsAtRates(members);
  let savedHundredths = 0;
  let savedMoney = 0n;
  for (const step of sold) {
    const number = numbers.get(pairKey(step));
    const whole = number === undefined ? undefined : steps[number];
    if (number === undefined || whole === undefined || whole.hundredths < 0) continue;
    hours.set(number, leftUnder(step.hundredths, whole));
    const saved = whole.bookHundredths - step.hundredths;
    savedHundredths += saved;
    savedMoney += BigInt(saved) * BigInt(rates.get(pairKey(step))?.rate ?? 0);
  }
  const placesOf = (some: (line: EstimateLine) => boolean): number[] =>
    lines.flatMap((line, at) => (some(line) ? [at] : []));
  return {
    key,
    package: own,
    lines: placesOf((line) => open.includes(line)),
    outsiders: placesOf(
      ({ id, steps: used }) => !ids.has(id) && used.some((step) => keys.has(pairKey(step))),
    ),
    hours,
    savedHundredths,
    savedMoney,
    isBegun: agreed.size > 0,
  };
}

/** In the order in which they are preferred where two of them save as much. */
export function preparePackages(
  terms: PricingTerms,
  lines: readonly EstimateLine[],
  numbers: ReadonlyMap<string, number>,
  steps: readonly PreparedStep[],
): PreparedPackage[] {
  return (terms.packages ?? [])
    .flatMap((own) => preparePackage(own, terms, lines, numbers, steps) ?? [])
    .sort(
      (a, b) =>
        Number(b.isBegun) - Number(a.isBegun) ||
        b.lines.length - a.lines.length ||
        compareCodePoints(a.key, b.key),
    );
}
