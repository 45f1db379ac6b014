import { fail, ok } from '#libs/kernel';
import type { FieldFault, Result } from '#libs/kernel';
import type { RangeEffort, RangeFault, RangeInput } from './range-input.js';
import type { Spread } from './spread.js';

/** Above these a figure is a slip of the keyboard; below them all sums keep their cents. */
const MOST = {
  cents: 2_000_000_000,
  agreed: 1_000_000_000_000,
  chance: 1_000_000,
  rate: 2_000_000,
} as const;
/** The common factor beyond this would say that nothing is known. */
const MOST_COMMON = 1_000_000;
export const FEWEST_DRAWS = 100;
export const MOST_DRAWS = 100_000;

function inside(value: number, least: number, most: number): boolean {
  return Number.isSafeInteger(value) && value >= least && value <= most;
}

/** Notes what is wrong, field by field. */
class Notes {
  readonly figures: FieldFault[] = [];
  readonly orders: FieldFault[] = [];

  whole(pointer: string, value: number, most: number, least = 0): void {
    if (!inside(value, least, most))
      this.figures.push({ pointer, detail: `This must be a whole number from ${least} to ${most}.` });
  }

  spread(pointer: string, spread: Spread): void {
    const before = this.figures.length;
    for (const key of ['low', 'likely', 'high'] as const)
      this.whole(`${pointer}/${key}`, spread[key], MOST.cents);
    if (this.figures.length > before) return;
    if (spread.low > spread.likely || spread.likely > spread.high)
      this.orders.push({ pointer, detail: 'Low, likely and high must not fall.' });
  }
}

function noteParts({ lines, contingencies, unseen }: RangeInput, notes: Notes): void {
  const work = [
    ...lines.map((part, at) => ({ part, own: `/lines/${at}` })),
    ...contingencies.map((part, at) => ({ part, own: `/contingencies/${at}` })),
  ];
  for (const { part, own } of work) {
    notes.spread(`${own}/labour`, part.labour);
    notes.spread(`${own}/items`, part.items);
    notes.whole(`${own}/itemsTaxPpm`, part.itemsTaxPpm, MOST.rate);
    if (part.itemsBearPpm !== undefined) notes.whole(`${own}/itemsBearPpm`, part.itemsBearPpm, MOST.chance);
  }
  contingencies.forEach(({ chancePpm, capCents }, at) => {
    notes.whole(`/contingencies/${at}/chancePpm`, chancePpm, MOST.chance);
    if (capCents !== null) notes.whole(`/contingencies/${at}/capCents`, capCents, MOST.cents);
  });
  unseen.forEach(({ chancePpm, cents }, at) => {
    notes.whole(`/unseen/${at}/chancePpm`, chancePpm, MOST.chance);
    notes.spread(`/unseen/${at}/cents`, cents);
  });
}

function noteTerms(input: RangeInput, notes: Notes): void {
  notes.whole('/commonSpreadPpm', input.commonSpreadPpm, MOST_COMMON);
  notes.whole('/labourTaxPpm', input.labourTaxPpm, MOST.rate);
  notes.whole('/fixedCents', input.fixedCents, MOST.agreed, -MOST.agreed);
  if (input.likelyCents !== undefined)
    notes.whole('/likelyCents', input.likelyCents, MOST.agreed, -MOST.agreed);
  const { supplies } = input;
  if (supplies === null) return;
  notes.whole('/supplies/ratePpm', supplies.ratePpm, MOST.rate);
  notes.whole('/supplies/taxPpm', supplies.taxPpm, MOST.rate);
  notes.whole('/supplies/floorCents', supplies.floorCents, MOST.cents);
  if (supplies.capCents !== null) notes.whole('/supplies/capCents', supplies.capCents, MOST.cents);
  notes.whole('/supplies/givenBaseCents', supplies.givenBaseCents, MOST.agreed);
  notes.whole('/supplies/givenSuppliesCents', supplies.givenSuppliesCents, MOST.agreed);
}

function firstTwice(ids: readonly string[]): string | undefined {
  return ids.length === new Set(ids).size ? undefined : ids.find((id, at) => ids.indexOf(id) !== at);
}

/** Whether a range can be drawn, before any of it is. Two of a kind under one id would be drawn alike. */
export function checkRange(input: RangeInput, effort?: RangeEffort): Result<RangeInput, RangeFault> {
  for (const parts of [input.lines, input.contingencies, input.unseen]) {
    const twice = firstTwice(parts.map(({ id }) => id));
    if (twice !== undefined) return fail('part-listed-twice', `"${twice}" is listed twice.`);
  }
  const notes = new Notes();
  noteParts(input, notes);
  noteTerms(input, notes);
  if (effort !== undefined) {
    notes.whole('/seed', effort.seed, Number.MAX_SAFE_INTEGER);
    notes.whole('/draws', effort.draws, MOST_DRAWS, FEWEST_DRAWS);
  }
  const { figures, orders } = notes;
  if (figures.length > 0) return fail('figure-invalid', 'Some figures make no range.', { fields: figures });
  if (orders.length > 0)
    return fail('spread-out-of-order', 'Low, likely and high must not fall.', { fields: orders });
  return ok(input);
}
