import type { ChoiceInput } from '#libs/estimate';
import { itemsOfLine, lessAgreed, taxableItems } from '#libs/estimate';

/** What the sum of the chosen lines depends on; `lines` are those that can be chosen, in the order of the page. */
export type RunningTotal = Omit<ChoiceInput, 'chosen'>;

/** `--c3` is 1 while the third line's yes is checked. */
const chosen = (at: number): string => `var(--c${at},0)`;
const sum = (terms: readonly string[]): string => (terms.length === 0 ? '0' : terms.join(' + '));
const weighted = (weights: readonly number[]): string =>
  sum(weights.flatMap((weight, at) => (weight === 0 ? [] : [`${chosen(at)}*${weight}`])));

/**
 * Half up to a whole number. `numerator` is whole, so a quarter of one step more changes no result and keeps the inexact
 * binary quotient from falling below a half.
 */
const halfUp = (numerator: string, divisor: number): string =>
  `round(down,(${numerator} + ${divisor / 2 + 0.25})/${divisor},1)`;

/** Hours of the union of steps: each group of steps that the same lines use counts as soon as one of them is chosen. */
function hoursRule({ lines, given }: RunningTotal): string {
  const left = lessAgreed(given);
  const users = new Map<string, { hundredths: number; lines: number[] }>();
  lines.forEach((line, at) => {
    const own = new Map(left(line.steps).map((step) => [JSON.stringify([step.step, step.position]), step]));
    for (const [key, { hundredths }] of own) {
      const known = users.get(key);
      users.set(key, { hundredths, lines: [...(known?.lines ?? []), at] });
    }
  });
  const groups = new Map<string, number>();
  for (const { hundredths, lines: used } of users.values()) {
    const key = used.map(chosen).join(' + ');
    groups.set(key, (groups.get(key) ?? 0) + hundredths);
  }
  return sum([...groups].map(([key, hours]) => `min(1,${key})*${hours}`));
}

function suppliesRule({ given, policy }: RunningTotal): string {
  if (policy.supplies === null) return '0';
  const { ratePpm, floorCents, capCents } = policy.supplies;
  const rated = halfUp(`(var(--l) + ${given.suppliesBaseCents ?? given.labourCents})*${ratePpm}`, 1_000_000);
  const raised = floorCents === 0 ? rated : `max(${rated},${floorCents})`;
  const charge = capCents === null ? raised : `min(${raised},${capCents})`;
  return `min(1,var(--l))*max(0,${charge} - ${given.suppliesCents})`;
}

/** Whether every step is sold at the rate of its line and nothing but the choice of lines moves the sum. */
function isPlain({ lines, policy, orderDiscount, packages = [] }: RunningTotal): boolean {
  const { taxRounding, taxesCombined, supplies } = policy;
  if (taxRounding !== 'invoice' || taxesCombined === true || (supplies?.base ?? 'labour') !== 'labour')
    return false;
  return (
    orderDiscount === undefined &&
    packages.length === 0 &&
    lines.every(
      ({ noCharge, discount, steps }) =>
        noCharge == null &&
        (discount?.labourPpm ?? 0) === 0 &&
        steps.every(({ rateCentsPerHour }) => rateCentsPerHour === undefined),
    )
  );
}

/**
 * Style rules that add up what is chosen, in whole cents and with the shop's own rounding, while the owner chooses and
 * without a script. Null where style rules could not be exact: with several labour rates, or tax rounded by line, an
 * amount would have to be split first; nor with reduced labour, a package or an amount off the order. `rules` belong to the form, `total` to the element that shows the sum, in which
 * `--sum` is the total in cents. Nothing in between is a registered property: browsers hand those on with six digits.
 */
export function runningTotal(input: RunningTotal): { readonly rules: string; readonly total: string } | null {
  const { lines, policy } = input;
  const rates = new Set(lines.filter(({ steps }) => steps.length > 0).map((line) => line.rateCentsPerHour));
  if (rates.size > 1 || lines.length === 0 || !isPlain(input)) return null;
  const [rate = 0] = rates;
  const items = lines.map((line) => itemsOfLine(line));
  const taxes = policy.taxes.map(({ on, ratePpm }) => {
    const base = [
      weighted(items.map((own) => taxableItems(own, on))),
      ...(on.includes('labour') ? ['var(--l)'] : []),
      ...(on.includes('supplies') ? ['var(--s)'] : []),
    ].filter((term) => term !== '0');
    return base.length === 0 ? '0' : halfUp(`(${sum(base)})*${ratePpm}`, 1_000_000);
  });
  const declarations = {
    '--h': `calc(${hoursRule(input)})`,
    '--l': `calc(${halfUp(`var(--h)*${rate}`, 100)})`,
    '--s': `calc(${suppliesRule(input)})`,
    '--p': `calc(${weighted(items.map(({ partsCents, coreCents }) => partsCents + coreCents))})`,
    '--sum': `calc(${sum(['var(--l)', 'var(--s)', 'var(--p)', ...taxes])})`,
  };
  return {
    rules: lines.map((_, at) => `form:has(#y${at}:checked){--c${at}:1}`).join(''),
    total: Object.entries(declarations)
      .map(([name, value]) => `${name}:${value}`)
      .join(';'),
  };
}
