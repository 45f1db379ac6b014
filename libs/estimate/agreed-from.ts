import { bookHundredths, cents } from '#libs/kernel';
import type { Cents } from '#libs/kernel';
import type { AgreedPackage, AgreedStep, AlreadyAgreed } from './already-agreed.js';
import type { CarriedStep } from './carried-steps.js';
import { pairKey } from './pair-key.js';

/** An approved line as it was agreed to. */
export interface AgreedLine {
  /** Needed for a line that was sold under a package. */
  readonly id?: string;
  readonly steps: readonly CarriedStep[];
  readonly labourCents: Cents;
  readonly suppliesCents: Cents;
  /** `ChosenLinePrice.suppliesBaseCents` of the decision; the labour where it was not kept. */
  readonly suppliesBaseCents?: Cents;
  /** `ChosenLinePrice.orderDiscountCents` of the decision; only of lines of the revision that is priced next. */
  readonly orderDiscountCents?: Cents;
}

interface Fraction {
  readonly top: bigint;
  readonly bottom: bigint;
}

interface AgreedPair {
  readonly step: string;
  readonly position: string;
  readonly agreed: Fraction;
  /** The package of all who carry it, undefined as soon as they differ. */
  readonly package: string | undefined;
}

/** What is agreed to of every step; a part of a hundredth counts as agreed, in the owner's favour. */
function stepsOf(lines: readonly AgreedLine[]): AgreedStep[] {
  const pairs = new Map<string, AgreedPair>();
  for (const carried of lines.flatMap((line) => line.steps)) {
    if (carried.unpaid === true) continue;
    const { step, position, hundredths, sharedBy } = carried;
    const known = pairs.get(pairKey(carried));
    const { top, bottom } = known?.agreed ?? { top: 0n, bottom: 1n };
    const parts = BigInt(sharedBy);
    pairs.set(pairKey(carried), {
      step,
      position,
      agreed: { top: top * parts + BigInt(hundredths) * bottom, bottom: bottom * parts },
      package: known === undefined || known.package === carried.package ? carried.package : undefined,
    });
  }
  return [...pairs.values()].map(({ step, position, agreed: { top, bottom }, package: under }) => ({
    step,
    position,
    hundredths: bookHundredths(Number((top + bottom - 1n) / bottom)),
    ...(under === undefined ? {} : { package: under }),
  }));
}

function packagesOf(lines: readonly AgreedLine[]): AgreedPackage[] {
  const packages = new Map<string, Set<string>>();
  for (const { id, steps } of lines) {
    for (const { package: key } of steps) {
      if (id === undefined || key === undefined) continue;
      packages.set(key, (packages.get(key) ?? new Set()).add(id));
    }
  }
  return [...packages].map(([key, lineIds]) => ({ package: key, lineIds: [...lineIds] }));
}

/**
 * What a set of approved lines has agreed to, for pricing whatever comes next. A step that two lines share is agreed to in
 * full while both stand, and in half once the other was given up; the rest of it is then open and is sold to the next
 * line that needs it. What nobody pays for nobody has agreed to. Lines that were sold under a package keep it in force
 * for those of its lines that are still open.
 */
export function agreedFrom(lines: readonly AgreedLine[]): AlreadyAgreed {
  const sum = (amount: (line: AgreedLine) => Cents): Cents =>
    cents(lines.reduce((total, line) => total + amount(line), 0));
  const packages = packagesOf(lines);
  return {
    steps: stepsOf(lines),
    labourCents: sum((line) => line.labourCents),
    suppliesCents: sum((line) => line.suppliesCents),
    ...(lines.some((line) => line.suppliesBaseCents !== undefined)
      ? { suppliesBaseCents: sum((line) => line.suppliesBaseCents ?? line.labourCents) }
      : {}),
    ...(lines.some((line) => line.orderDiscountCents !== undefined)
      ? { orderDiscountCents: sum((line) => line.orderDiscountCents ?? cents(0)) }
      : {}),
    ...(packages.length === 0 ? {} : { packages }),
  };
}
