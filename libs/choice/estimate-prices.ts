import { ok } from '#libs/kernel';
import type { Cents, Result } from '#libs/kernel';
import { itemsOfLine, lessAgreed, taxableItems, totalPricer } from '#libs/estimate';
import type { AlreadyAgreed, ChoiceFault, EstimateLine, PricingPolicy, TaxKind } from '#libs/estimate';
import type { LowerPrice, PriceModel, SharedCost } from './price-model.js';

export interface EstimateTerms {
  /** In the order of the problem's lines. */
  readonly lines: readonly EstimateLine[];
  readonly given: AlreadyAgreed;
  readonly policy: PricingPolicy;
}

interface Side {
  /** Cents of price for each cent of labour. */
  readonly perLabour: number;
  /** Supplies, tax included, that come on top with the first labour. */
  readonly withLabour: number;
}

/**
 * The price of an estimate's lines as the owner would pay it (`priceChoice`): labour by rate, parts, supplies, tax. Exact
 * to the cent; its lower prices are what `priceChoice` would charge without rounding. A step that lines of several rates
 * share is sold at the dearest of them, so each rate adds its difference to the one below as a shared cost. Supplies are
 * a share of labour up to their cap and constant beyond it: one lower price for each.
 */
export function estimatePrices(terms: EstimateTerms): Result<PriceModel, ChoiceFault> {
  const { lines, policy } = terms;
  const total = totalPricer(terms);
  if (!total.ok) return total;
  const labour = sharedLabour(terms);
  const items = ownItems(terms);
  const lowers = sidesOf(terms).map((side): LowerPrice => {
    const onLabour = 1 + taxOn(policy, 'labour') + side.perLabour;
    return {
      base: Math.min(0, side.withLabour),
      own: items.amounts,
      shared: [
        ...labour.map(({ amount, lines: users }) => ({ amount: amount * onLabour, lines: users })),
        { amount: Math.max(0, side.withLabour), lines: withRealLabour(terms) },
      ],
      slack: slackOf(terms, onLabour) + items.slack,
    };
  });
  const price = total.value;
  return ok({
    exact: (chosen) => price(chosen.flatMap((at) => lines[at] ?? [])),
    lowers,
  });
}

/** All taxes on a kind of charge, as a fraction. */
function taxOn({ taxes }: PricingPolicy, kind: TaxKind): number {
  return taxes.reduce((sum, { on, ratePpm }) => sum + (on.includes(kind) ? ratePpm / 1_000_000 : 0), 0);
}

function sharedLabour({ lines, given }: EstimateTerms): SharedCost[] {
  const left = lessAgreed(given);
  const steps = new Map<string, { hundredths: number; users: { at: number; rate: Cents }[] }>();
  lines.forEach(({ steps: own, rateCentsPerHour: rate }, at) => {
    const seen = new Set<string>();
    for (const { step, position, hundredths } of left(own)) {
      const key = JSON.stringify([step, position]);
      if (seen.size === seen.add(key).size) continue;
      const known = steps.get(key) ?? { hundredths, users: [] };
      known.users.push({ at, rate });
      steps.set(key, known);
    }
  });
  return [...steps.values()].flatMap(({ hundredths, users }) => {
    const rates = [...new Set(users.map(({ rate }) => rate))].sort((a, b) => a - b);
    return rates.map((rate, level) => ({
      amount: (hundredths * (rate - (rates[level - 1] ?? 0))) / 100,
      lines: users.flatMap((user) => (user.rate >= rate ? [user.at] : [])),
    }));
  });
}

/** Lines that have labour of at least half a cent in one step, so that some cent of it is charged in any choice. */
function withRealLabour({ lines, given }: EstimateTerms): number[] {
  const left = lessAgreed(given);
  return lines.flatMap(({ steps, rateCentsPerHour }, at) =>
    left(steps).some(({ hundredths }) => hundredths * rateCentsPerHour >= 50) ? [at] : [],
  );
}

/** What each line's items add, tax included; tax that is rounded by line may be half a cent less for each tax. */
function ownItems({ lines, policy }: EstimateTerms): { amounts: number[]; slack: number } {
  const rounding = policy.taxRounding === 'line' ? policy.taxes.length / 2 : 0;
  let slack = 0;
  const amounts = lines.map((line) => {
    const items = itemsOfLine(line);
    const taxed = policy.taxes.reduce(
      (sum, { on, ratePpm }) => sum + (taxableItems(items, on) * ratePpm) / 1_000_000,
      0,
    );
    const amount = items.partsCents + items.coreCents + taxed;
    slack += Math.max(0, rounding - amount);
    return Math.max(0, amount - rounding);
  });
  return { amounts, slack };
}

function sidesOf({ given, policy }: EstimateTerms): Side[] {
  const { supplies } = policy;
  if (supplies === null) return [{ perLabour: 0, withLabour: 0 }];
  const { ratePpm, floorCents, capCents } = supplies;
  const taxed = 1 + taxOn(policy, 'supplies');
  const share = ratePpm / 1_000_000;
  const rated = {
    perLabour: share * taxed,
    withLabour: (share * given.labourCents - given.suppliesCents) * taxed,
  };
  if (capCents === null) return [rated];
  const capped = { perLabour: 0, withLabour: Math.max(0, capCents - given.suppliesCents) * taxed };
  return capCents <= floorCents ? [capped] : [rated, capped];
}

/** Half a cent for each class of labour, for supplies, and for each tax that is rounded once. */
function slackOf({ lines, policy }: EstimateTerms, onLabour: number): number {
  const classes = new Set(lines.map(({ rateCentsPerHour }) => rateCentsPerHour)).size;
  const taxes = policy.taxRounding === 'invoice' ? policy.taxes.length : 0;
  return (classes * onLabour + 1 + taxOn(policy, 'supplies') + taxes) / 2 + 1e-6;
}
