import { fail, ok } from '#libs/kernel';
import type { Fault, FieldFault, Result } from '#libs/kernel';
import { together } from '#libs/labour';
import type { LabourFault } from '#libs/labour';
import type { AlreadyAgreed } from './already-agreed.js';
import type { EstimateLine } from './estimate-line.js';
import type { PricingPolicy } from './pricing-policy.js';

/**
 * `line-listed-twice`: two lines under one id. `line-unknown`: a chosen id that no line has. `figure-invalid`: a
 * quantity, price, rate or amount that is not a whole number from zero up; each is pointed at. `tax-named-twice`.
 */
export type ChoiceFault =
  LabourFault | Fault<'line-listed-twice' | 'line-unknown' | 'figure-invalid' | 'tax-named-twice'>;

export interface ChoiceInput {
  readonly lines: readonly EstimateLine[];
  /** Ids of lines; an id that is listed twice counts once. */
  readonly chosen: readonly string[];
  readonly given: AlreadyAgreed;
  readonly policy: PricingPolicy;
}

/** Above these a figure is a slip of the keyboard; below them the sums of a repair order stay exact integers. */
const LARGEST = { entered: 100_000_000, agreed: 1_000_000_000_000, rate: 1_000_000 } as const;

function figureFaults({ lines, given, policy }: ChoiceInput): FieldFault[] {
  const faults: FieldFault[] = [];
  const check = (pointer: string, value: number | null | undefined, kind: keyof typeof LARGEST): void => {
    if (value == null || (Number.isSafeInteger(value) && value >= 0 && value <= LARGEST[kind])) return;
    faults.push({ pointer, detail: `This must be a whole number from 0 to ${LARGEST[kind]}.` });
  };
  lines.forEach((line, at) => {
    check(`/lines/${at}/rateCentsPerHour`, line.rateCentsPerHour, 'entered');
    line.steps.forEach((step, index) =>
      check(`/lines/${at}/steps/${index}/hundredths`, step.hundredths, 'entered'),
    );
    line.items.forEach((item, index) => {
      const own = `/lines/${at}/items/${index}`;
      check(`${own}/quantityHundredths`, item.quantityHundredths, 'entered');
      check(`${own}/unitPriceCents`, item.unitPriceCents, 'entered');
      check(`${own}/coreCents`, item.coreCents, 'entered');
    });
  });
  given.steps.forEach((step, at) => check(`/given/steps/${at}/hundredths`, step.hundredths, 'entered'));
  check('/given/labourCents', given.labourCents, 'agreed');
  check('/given/suppliesCents', given.suppliesCents, 'agreed');
  policy.taxes.forEach((tax, at) => check(`/policy/taxes/${at}/ratePpm`, tax.ratePpm, 'rate'));
  check('/policy/supplies/ratePpm', policy.supplies?.ratePpm, 'rate');
  check('/policy/supplies/floorCents', policy.supplies?.floorCents, 'entered');
  check('/policy/supplies/capCents', policy.supplies?.capCents, 'entered');
  return faults;
}

const firstTwice = (names: readonly string[]): string | undefined =>
  names.find((name, at) => names.indexOf(name) !== at);

/** Whether a choice can be priced, before any of it is. */
export function checkChoice(input: ChoiceInput): Result<ChoiceInput, ChoiceFault> {
  const { lines, chosen, policy } = input;
  const ids = lines.map(({ id }) => id);
  const twice = firstTwice(ids);
  if (twice !== undefined) return fail('line-listed-twice', `Line "${twice}" is listed twice.`);
  const tax = firstTwice(policy.taxes.map(({ name }) => name));
  if (tax !== undefined)
    return fail('tax-named-twice', `Two taxes are called "${tax}": give each its own name.`);
  const unknown = chosen.find((id) => !ids.includes(id));
  if (unknown !== undefined) return fail('line-unknown', `Line "${unknown}" is not part of this estimate.`);
  const fields = figureFaults(input);
  if (fields.length > 0) return fail('figure-invalid', 'Some figures cannot be priced.', { fields });
  // All lines, chosen or not: a step with two different hours is wrong today even if only one of them is chosen.
  const steps = together(lines);
  return steps.ok ? ok(input) : steps;
}
