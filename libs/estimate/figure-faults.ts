import type { FieldFault } from '#libs/kernel';
import type { ChoiceInput } from './check-choice.js';
import type { EstimateLine } from './estimate-line.js';

/** Above these a figure is a slip of the keyboard; below them the sums of a repair order stay exact integers. */
const LARGEST = { entered: 100_000_000, agreed: 1_000_000_000_000, rate: 1_000_000 } as const;
/** Packages that overlap are weighed against each other one by one. */
export const MOST_PACKAGES = 20;

type Check = (pointer: string, value: number | null | undefined, kind: keyof typeof LARGEST) => void;

function checkLine(line: EstimateLine, own: string, check: Check): void {
  check(`${own}/rateCentsPerHour`, line.rateCentsPerHour, 'entered');
  for (const [index, step] of line.steps.entries()) {
    if (step.rateCentsPerHour !== undefined)
      check(`${own}/steps/${index}/rateCentsPerHour`, step.rateCentsPerHour, 'entered');
    check(`${own}/steps/${index}/hundredths`, step.hundredths, 'entered');
  }
  for (const [index, item] of line.items.entries()) {
    check(`${own}/items/${index}/quantityHundredths`, item.quantityHundredths, 'entered');
    check(`${own}/items/${index}/unitPriceCents`, item.unitPriceCents, 'entered');
    check(`${own}/items/${index}/coreCents`, item.coreCents, 'entered');
  }
  if (line.discount == null) return;
  check(`${own}/discount/labourPpm`, line.discount.labourPpm, 'rate');
  check(`${own}/discount/itemsPpm`, line.discount.itemsPpm, 'rate');
  check(`${own}/discount/itemsCents`, line.discount.itemsCents, 'entered');
}

/** Figures that nobody can mean, each pointed at. */
export function figureFaults({
  lines,
  given,
  policy,
  orderDiscount,
  packages = [],
}: ChoiceInput): FieldFault[] {
  const faults: FieldFault[] = [];
  const check: Check = (pointer, value, kind) => {
    if (value == null || (Number.isSafeInteger(value) && value >= 0 && value <= LARGEST[kind])) return;
    faults.push({ pointer, detail: `This must be a whole number from 0 to ${LARGEST[kind]}.` });
  };
  lines.forEach((line, at) => checkLine(line, `/lines/${at}`, check));
  given.steps.forEach((step, at) => check(`/given/steps/${at}/hundredths`, step.hundredths, 'entered'));
  check('/given/labourCents', given.labourCents, 'agreed');
  check('/given/suppliesCents', given.suppliesCents, 'agreed');
  check('/given/suppliesBaseCents', given.suppliesBaseCents, 'agreed');
  check('/given/orderDiscountCents', given.orderDiscountCents, 'agreed');
  policy.taxes.forEach((tax, at) => check(`/policy/taxes/${at}/ratePpm`, tax.ratePpm, 'rate'));
  check('/policy/supplies/ratePpm', policy.supplies?.ratePpm, 'rate');
  check('/policy/supplies/floorCents', policy.supplies?.floorCents, 'entered');
  check('/policy/supplies/capCents', policy.supplies?.capCents, 'entered');
  check('/orderDiscount/labourPpm', orderDiscount?.labourPpm, 'rate');
  check('/orderDiscount/itemsPpm', orderDiscount?.itemsPpm, 'rate');
  check('/orderDiscount/cents', orderDiscount?.cents, 'entered');
  packages.forEach(({ lineIds, hundredths }, at) => {
    check(`/packages/${at}/hundredths`, hundredths, 'entered');
    if (lineIds.length === 0)
      faults.push({ pointer: `/packages/${at}/lineIds`, detail: 'A package is for at least one line.' });
  });
  if (packages.length > MOST_PACKAGES)
    faults.push({ pointer: '/packages', detail: `There may be ${MOST_PACKAGES} packages.` });
  return faults;
}
