import { ok } from '#libs/kernel';
import type { Result } from '#libs/kernel';
import { CHARGES, prepareEstimate, totalPricer } from '#libs/estimate';
import type {
  ChoiceFault,
  PreparedEstimate,
  PreparedLine,
  PricingPolicy,
  PricingTerms,
  TaxKind,
} from '#libs/estimate';
import { packageSides } from './package-sides.js';
import type { LowerPrice, PriceModel, SharedCost } from './price-model.js';

/** An estimate as `priceChoice` takes it; its lines are in the order of the problem's lines. */
export type EstimateTerms = PricingTerms;

/** One side of the supplies: a share of their base, or the cap. */
interface Side {
  /** Cents of price for each cent of what supplies are a share of, tax included. */
  readonly perBase: number;
  /** Supplies, tax included, that come on top with the first cent of their base. */
  readonly withBase: number;
}

const MILLION = 1_000_000;

/**
 * The price of an estimate's lines as the owner would pay it (`priceChoice`): labour by rate, parts, supplies, tax,
 * discounts and packages. Exact to the cent; its lower prices are what `priceChoice` would charge at least, without
 * rounding. A step that lines of several rates share is sold at the dearest of them, so each rate adds its difference to the one
 * below as a shared cost. Supplies are a share of their base up to their cap and
 * constant beyond it, and a package holds or does not: one lower price for each. An amount off the order comes off where it saves most tax.
 */
export function estimatePrices(terms: EstimateTerms): Result<PriceModel, ChoiceFault> {
  const total = totalPricer(terms);
  if (!total.ok) return total;
  const price = total.value;
  const prepared = prepareEstimate(terms);
  const lines = terms.lines.flatMap(({ id }) => prepared.byId.get(id) ?? []);
  const places = new Map(lines.map(({ at }, index) => [at, index]));
  const indicesOf = (some: readonly number[]): number[] => some.flatMap((at) => places.get(at) ?? []);
  const lowers = packageSides(prepared).flatMap(({ hours, lines: members, outsiders }) => {
    const read = { prepared, lines, hours, labour: sharedLabour(prepared, lines, hours) };
    const within = { in: indicesOf(members), out: indicesOf(outsiders) };
    return sidesOf(terms).map((side) => ({ ...lowerPrice(side, read), within }));
  });
  return ok({ exact: (chosen) => price(chosen.flatMap((at) => terms.lines[at] ?? [])), lowers });
}

interface Read {
  readonly prepared: PreparedEstimate;
  /** In the order of the problem. */
  readonly lines: readonly PreparedLine[];
  /** Of each step, or more. */
  readonly hours: readonly number[];
  readonly labour: readonly SharedCost[];
}

function lowerPrice(side: Side, read: Read): LowerPrice {
  const { prepared, lines, labour } = read;
  const { terms } = prepared;
  const factors = factorsOf(terms.policy, side);
  const items = ownItems(terms.policy, lines, factors);
  const onLabour = factors[0] ?? 1;
  const isReduced = openAmount(terms) > 0;
  return {
    base: Math.min(0, side.withBase) - mostOff(terms, lines, factors),
    own: items.amounts,
    shared: [
      ...labour.map(({ amount, lines: users }) => ({ amount: amount * onLabour, lines: users })),
      // What is off the order may leave nothing of their base, and then there are no supplies.
      ...(isReduced ? [] : [{ amount: Math.max(0, side.withBase), lines: withRealBase(read) }]),
    ],
    slack: slackOf(prepared, onLabour) + items.slack,
  };
}

/** All taxes on a kind of charge, as a fraction. */
function taxOn({ taxes }: PricingPolicy, kind: TaxKind): number {
  return taxes.reduce((sum, { on, ratePpm }) => sum + (on.includes(kind) ? ratePpm / MILLION : 0), 0);
}

/** By `CHARGES`: what a cent of it adds to the price, with its taxes and the supplies that follow it. */
function factorsOf(policy: PricingPolicy, { perBase }: Side): number[] {
  return CHARGES.map((charge) => {
    const taxed = 1 + taxOn(policy, charge === 'core' ? 'part' : charge);
    return isInBase(policy, charge) ? taxed + perBase : taxed;
  });
}

function isInBase({ supplies }: PricingPolicy, charge: (typeof CHARGES)[number]): boolean {
  const base = supplies?.base ?? 'labour';
  if (supplies === null) return false;
  if (charge === 'labour') return base !== 'parts';
  return (charge === 'part' || charge === 'fluid') && base !== 'labour';
}

function openAmount({ orderDiscount, given }: PricingTerms): number {
  return Math.max(0, (orderDiscount?.cents ?? 0) - (given.orderDiscountCents ?? 0));
}

/** The most that an amount off the order can take from the price: all of it where it saves most. */
function mostOff(terms: PricingTerms, lines: readonly PreparedLine[], factors: readonly number[]): number {
  const amount = openAmount(terms);
  const reducible = CHARGES.flatMap((charge, kind) => {
    if (charge === 'fee' || charge === 'core') return [];
    const isThere = charge === 'labour' || lines.some(({ charges }) => (charges[kind] ?? 0) > 0);
    return isThere ? [factors[kind] ?? 1] : [];
  });
  return amount * Math.max(0, ...reducible);
}

function sharedLabour(
  prepared: PreparedEstimate,
  lines: readonly PreparedLine[],
  hours: readonly number[],
): SharedCost[] {
  const users = prepared.steps.map((): { at: number; rate: number }[] => []);
  lines.forEach(({ steps, ranks }, at) => {
    steps.forEach((step, index) => {
      const exact = (prepared.rates[ranks[index] ?? 0] ?? 0) / MILLION;
      users[step]?.push({ at, rate: (exact * prepared.keepPpm) / MILLION });
    });
  });
  return users.flatMap((own, step) => {
    const rates = [...new Set(own.map(({ rate }) => rate))].sort((a, b) => a - b);
    return rates.map((rate, level) => ({
      amount: ((hours[step] ?? 0) * (rate - (rates[level - 1] ?? 0))) / 100,
      lines: own.flatMap((user) => (user.rate >= rate ? [user.at] : [])),
    }));
  });
}

/**
 * Lines that bring a cent of what supplies are a share of into any choice: labour of at least half a cent in one step, or a
 * part.
 */
function withRealBase({ prepared, lines, hours }: Read): number[] {
  const { policy } = prepared.terms;
  return lines.flatMap(({ steps, ranks, charges }, at) => {
    const hasLabour = steps.some((step, index) => {
      const rate = (prepared.rates[ranks[index] ?? 0] ?? 0) / MILLION;
      return (hours[step] ?? 0) * rate * prepared.keepPpm >= 50 * MILLION;
    });
    const isReal = CHARGES.some(
      (charge, kind) =>
        isInBase(policy, charge) && (charge === 'labour' ? hasLabour : (charges[kind] ?? 0) > 0),
    );
    return isReal ? [at] : [];
  });
}

/** What each line's items add, tax included; tax that is rounded by line may be half a cent less for each rounding. */
function ownItems(
  policy: PricingPolicy,
  lines: readonly PreparedLine[],
  factors: readonly number[],
): { amounts: number[]; slack: number } {
  const rounding = policy.taxRounding === 'line' ? roundings(policy) / 2 : 0;
  let slack = 0;
  const amounts = lines.map(({ charges }) => {
    const amount = charges.reduce((sum, charge, kind) => sum + charge * (factors[kind] ?? 1), 0);
    slack += Math.max(0, rounding - amount);
    return Math.max(0, amount - rounding);
  });
  return { amounts, slack };
}

/** How often the taxes on one amount are rounded. */
const roundings = ({ taxes, taxesCombined }: PricingPolicy): number =>
  taxesCombined === true ? Math.min(1, taxes.length) : taxes.length;

function sidesOf({ given, policy }: EstimateTerms): Side[] {
  const { supplies } = policy;
  if (supplies === null) return [{ perBase: 0, withBase: 0 }];
  const { ratePpm, floorCents, capCents } = supplies;
  const taxed = 1 + taxOn(policy, 'supplies');
  const share = ratePpm / MILLION;
  const before = given.suppliesBaseCents ?? given.labourCents;
  const rated = { perBase: share * taxed, withBase: (share * before - given.suppliesCents) * taxed };
  if (capCents === null) return [rated];
  const capped = { perBase: 0, withBase: Math.max(0, capCents - given.suppliesCents) * taxed };
  return capCents <= floorCents ? [capped] : [rated, capped];
}

/** Half a cent for each class of labour, for supplies, and for each tax that is rounded once. */
function slackOf({ rates, terms: { policy } }: PreparedEstimate, onLabour: number): number {
  const taxes = policy.taxRounding === 'invoice' ? roundings(policy) : 0;
  return (rates.length * onLabour + 1 + taxOn(policy, 'supplies') + taxes) / 2 + 1e-6;
}
