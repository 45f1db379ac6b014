import { bookHundredths, cents, fail, ok, ppm } from '#libs/kernel';
import type { Cents, Result } from '#libs/kernel';
import { NOTHING_AGREED, priceChoice, SUPPLIES_BASES } from '#libs/estimate';
import type { EstimateItem, EstimateStep, PricingPolicy, SuppliesRule, TaxRule } from '#libs/estimate';
import type { ChoiceToRange, RangedContingency, RangedLine, RangeEffort, Spread } from '#libs/range';
import type { FieldReader } from './field-reader.js';

const MOST = { hundredths: 100_000, cents: 100_000_000, ppm: 1_000_000, draws: 100_000 } as const;
const NONE: Spread = { low: 0, likely: 0, high: 0 };
const TAXED = { labour: 'labour', parts: 'part', supplies: 'supplies' } as const;

/** An estimate as it was read, and how to draw it. */
export interface AskedRange {
  readonly effort: RangeEffort;
  /** The lines priced as one choice, as an owner would pay them. */
  readonly price: () => Result<ChoiceToRange>;
}

interface ReadLine {
  readonly id: string;
  readonly rate: Cents;
  readonly hundredths: Spread;
  readonly parts: Spread;
  readonly steps: readonly string[];
}

/** A spread, or one number for a point. */
function readSpread(read: FieldReader, field: string, most: number): Spread {
  if (!read.has(field)) return NONE;
  const range = { min: 0, max: most };
  if (!read.isObject(field)) {
    const at = read.whole(field, range);
    return { low: at, likely: at, high: at };
  }
  return read.object(field, (own) => {
    const [low, likely, high] = [
      own.whole('low', range),
      own.whole('likely', range),
      own.whole('high', range),
    ];
    if (low > likely && !own.isRefused('likely')) own.invalid('likely', 'must not be below "low"');
    if (likely > high && !own.isRefused('high')) own.invalid('high', 'must not be below "likely"');
    return { low, likely, high };
  });
}

function readWork(read: FieldReader): Omit<ReadLine, 'steps'> {
  return {
    id: read.id('id'),
    rate: cents(read.optionalWhole('rateCentsPerHour', { min: 0, max: MOST.cents }) ?? 0),
    hundredths: readSpread(read, 'hundredths', MOST.hundredths),
    parts: readSpread(read, 'partsCents', MOST.cents),
  };
}

const part = (price: number): EstimateItem[] =>
  price === 0 ? [] : [{ id: 'parts', kind: 'part', quantityHundredths: 100, unitPriceCents: cents(price) }];

const asStep = (step: string, hundredths: number): EstimateStep => ({
  step,
  position: '',
  hundredths: bookHundredths(hundredths),
});

/** With steps, their sum is what is likely; hours that say otherwise are a slip. */
function readLine(read: FieldReader, hours: ReadonlyMap<string, number>): RangedLine {
  const { id, rate, hundredths, parts } = readWork(read);
  const names = read.optionalTexts('steps');
  const steps = names.map((name, at) => {
    if (!hours.has(name)) read.invalid(`steps[${at}]`, `names "${name}", which is not in the list of steps`);
    return asStep(`step:${name}`, hours.get(name) ?? 0);
  });
  const sum = steps.reduce((total, step) => total + step.hundredths, 0);
  const isGiven = read.has('hundredths');
  if (names.length > 0 && isGiven && sum !== hundredths.likely && !read.isRefused('hundredths'))
    read.invalid('hundredths', `must have ${sum} for its likely hours, the sum of its steps`);
  const likely = names.length > 0 ? sum : hundredths.likely;
  const worked = names.length > 0 && !isGiven ? { low: sum, high: sum } : hundredths;
  return {
    id,
    rateId: '',
    rateCentsPerHour: rate,
    steps: names.length > 0 ? steps : likely === 0 ? [] : [asStep(`line:${id}`, likely)],
    items: part(parts.likely),
    spread: {
      lowHundredths: bookHundredths(worked.low),
      highHundredths: bookHundredths(worked.high),
      lowItemsCents: cents(parts.low),
      highItemsCents: cents(parts.high),
    },
  };
}

function readContingency(read: FieldReader): RangedContingency {
  const { id, rate, hundredths, parts } = readWork(read);
  for (const [field, spread] of [
    ['hundredths', hundredths],
    ['partsCents', parts],
  ] as const)
    if (spread.low !== spread.high) read.invalid(field, 'must be one number for a contingency');
  const cap = read.optionalWhole('capCents', { min: 0, max: MOST.cents });
  return {
    offered: {
      id,
      chancePpm: ppm(read.whole('chancePpm', { min: 0, max: MOST.ppm })),
      hundredths: bookHundredths(hundredths.likely),
      items: part(parts.likely).map((item) => ({ ...item, words: 'parts' })),
      capCents: cap === undefined ? null : cents(cap),
    },
    line: { rateCentsPerHour: rate },
  };
}

function readTax(read: FieldReader): Omit<TaxRule, 'name'> {
  const on = read.texts('on').flatMap((name, index) => {
    if (name === 'labour' || name === 'parts' || name === 'supplies') return [TAXED[name]];
    read.invalid(`on[${index}]`, 'must be one of "labour", "parts", "supplies"');
    return [];
  });
  return { ratePpm: ppm(read.whole('ratePpm', { min: 0, max: MOST.ppm })), on };
}

function readSupplies(read: FieldReader): SuppliesRule {
  const cap = read.optionalWhole('capCents', { min: 0, max: MOST.cents });
  return {
    ratePpm: ppm(read.whole('ratePpm', { min: 0, max: MOST.ppm })),
    floorCents: cents(read.optionalWhole('floorCents', { min: 0, max: MOST.cents }) ?? 0),
    capCents: cap === undefined ? null : cents(cap),
    base: read.oneOf('base', SUPPLIES_BASES, 'labour'),
  };
}

/** Lines, what may come to them, and how they are priced. */
export function readRange(read: FieldReader): AskedRange {
  const steps = read.optionalObjects('steps', (own) => ({
    id: own.id('id'),
    hundredths: own.whole('hundredths', { min: 0, max: MOST.hundredths }),
  }));
  const hours = new Map(steps.map(({ id, hundredths }) => [id, hundredths]));
  const lines = read.objects('lines', (own) => readLine(own, hours));
  const contingencies = read.optionalObjects('contingencies', readContingency);
  const unseen = read.optionalObjects('unseen', (own) => {
    const checkpointId = own.id('id');
    const chancePpm = ppm(own.whole('chancePpm', { min: 0, max: MOST.ppm }));
    const { low, likely, high } = readSpread(own, 'cents', MOST.cents);
    const amounts = { lowCents: cents(low), likelyCents: cents(likely), highCents: cents(high) };
    return { checkpointId, words: checkpointId, chancePpm, ...amounts };
  });
  const taxes = read.optionalObjects('taxes', readTax);
  const policy: PricingPolicy = {
    taxes: taxes.map((tax, at) => ({ ...tax, name: `tax ${at + 1}` })),
    taxRounding: 'invoice',
    supplies: read.has('supplies') ? read.object('supplies', readSupplies) : null,
  };
  const terms = {
    commonSpreadPpm: ppm(read.optionalWhole('commonSpreadPpm', { min: 0, max: MOST.ppm }) ?? 0),
    agreedCents: cents(read.optionalWhole('fixedCents', { min: 0, max: 1_000_000_000 }) ?? 0),
  };
  return {
    effort: {
      seed: read.optionalWhole('seed', { min: 0 }) ?? 1,
      draws: read.optionalWhole('draws', { min: 100, max: MOST.draws }) ?? 10_000,
    },
    price: () => {
      const twice = steps.find(({ id }, at) => steps.findIndex((other) => other.id === id) !== at);
      if (twice !== undefined) return fail('step-listed-twice', `Step "${twice.id}" is listed twice.`);
      const given = NOTHING_AGREED;
      const price = priceChoice({ lines, chosen: lines.map(({ id }) => id), given, policy });
      if (!price.ok) return price;
      return ok({
        ...{ lines, price: price.value, given, policy, contingencies, unseen, ...terms },
        agreed: new Set<string>(),
      });
    },
  };
}
