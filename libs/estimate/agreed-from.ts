import { bookHundredths, cents } from '#libs/kernel';
import type { Cents } from '#libs/kernel';
import type { AlreadyAgreed } from './already-agreed.js';
import type { CarriedStep } from './carried-steps.js';
import { pairKey } from './pair-key.js';

/** An approved line as it was agreed to. */
export interface AgreedLine {
  readonly steps: readonly CarriedStep[];
  readonly labourCents: Cents;
  readonly suppliesCents: Cents;
}

interface Fraction {
  readonly top: bigint;
  readonly bottom: bigint;
}

/**
 * What a set of approved lines has agreed to, for pricing whatever comes next. A step that two lines share is agreed to in
 * full while both stand, and in half once the other was given up; the rest of it is then open and is sold to the next
 * line that needs it. A part of a hundredth counts as agreed, in the owner's favour.
 */
export function agreedFrom(lines: readonly AgreedLine[]): AlreadyAgreed {
  const pairs = new Map<string, { step: string; position: string; agreed: Fraction }>();
  for (const { step, position, hundredths, sharedBy } of lines.flatMap((line) => line.steps)) {
    const key = pairKey({ step, position });
    const { top, bottom } = pairs.get(key)?.agreed ?? { top: 0n, bottom: 1n };
    const parts = BigInt(sharedBy);
    const agreed = { top: top * parts + BigInt(hundredths) * bottom, bottom: bottom * parts };
    pairs.set(key, { step, position, agreed });
  }
  const sum = (amount: (line: AgreedLine) => Cents): Cents =>
    cents(lines.reduce((total, line) => total + amount(line), 0));
  return {
    steps: [...pairs.values()].map(({ step, position, agreed: { top, bottom } }) => ({
      step,
      position,
      hundredths: bookHundredths(Number((top + bottom - 1n) / bottom)),
    })),
    labourCents: sum((line) => line.labourCents),
    suppliesCents: sum((line) => line.suppliesCents),
  };
}
