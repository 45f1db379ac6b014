import { cents, fail, ok } from '#libs/kernel';
import type { Fault, FieldFault, Result } from '#libs/kernel';
import type { ChoiceFault } from './check-choice.js';
import type { Figures, LinePrice } from './choice-price.js';
import type { FrozenLine, FrozenRevision, RevisionLine, RevisionToFreeze } from './frozen-revision.js';
import { priceChoice } from './price-choice.js';

/** `revision-empty`: nothing to decide on. `line-words-missing`: a line does not say all that the owner must read. */
export type FreezeFault = ChoiceFault | Fault<'revision-empty' | 'line-words-missing'>;

function missingWords(lines: readonly RevisionLine[]): FieldFault[] {
  return lines.flatMap((line, at) => {
    const { title, verdict, why } = line;
    // Work that answers no finding has neither a verdict nor anything that could wait.
    const consequence = line.consequence ?? (verdict === null ? 'none' : '');
    const words = { title, verdict: verdict ?? 'none', why, consequence };
    const blank = Object.entries(words).filter(([, text]) => text.trim() === '');
    const items = line.items.flatMap((item, index) =>
      item.words.trim() === ''
        ? [{ pointer: `/lines/${at}/items/${index}/words`, detail: 'Name the item.' }]
        : [],
    );
    return [
      ...blank.map(([key]) => ({ pointer: `/lines/${at}/${key}`, detail: 'The owner must read this.' })),
      ...items,
    ];
  });
}

/** Only the figures, without what else the object carries: the document holds nothing by accident. */
function figuresOf(figures: Figures): Figures {
  const { hundredths, labourCents, partsCents, coreCents, suppliesCents, taxCents, totalCents } = figures;
  const taxes = figures.taxes.map(({ name, cents: tax }) => ({ name, cents: tax }));
  return { hundredths, labourCents, partsCents, coreCents, suppliesCents, taxCents, taxes, totalCents };
}

function freezeLine(line: RevisionLine, price: LinePrice): FrozenLine {
  const { id, title, verdict, mayDrive, why, consequence, operations, rateId, rateCentsPerHour } = line;
  return {
    id,
    title,
    verdict,
    mayDrive,
    why,
    consequence,
    measured: (line.measured ?? []).map(({ reading, limit, source }) => ({ reading, limit, source })),
    photos: [...(line.photos ?? [])],
    operations: [...operations],
    rateId,
    rateCentsPerHour,
    steps: line.steps.map(({ step, position, hundredths }) => ({ step, position, hundredths })),
    items: line.items.map((item) => ({
      id: item.id,
      kind: item.kind,
      words: item.words,
      condition: item.condition ?? null,
      quantityHundredths: item.quantityHundredths,
      unitPriceCents: item.unitPriceCents,
      coreCents: item.coreCents ?? cents(0),
    })),
    alone: figuresOf(price.alone),
    together: figuresOf(price.chosen ? price : price.alone),
  };
}

function freezePolicy({
  taxes,
  taxRounding,
  supplies,
}: RevisionToFreeze['policy']): RevisionToFreeze['policy'] {
  return {
    taxes: taxes.map(({ name, ratePpm, on }) => ({ name, ratePpm, on: [...on] })),
    taxRounding,
    supplies:
      supplies === null
        ? null
        : { ratePpm: supplies.ratePpm, floorCents: supplies.floorCents, capCents: supplies.capCents },
  };
}

/**
 * The document of a revision as it is sent: the words, the figures alone and with everything chosen, the policy and what
 * was agreed before. Plain JSON of texts, whole numbers and nulls; `canonicalJson` gives the text whose hash is kept
 * as evidence of what was shown.
 */
export function freezeRevision(revision: RevisionToFreeze): Result<FrozenRevision, FreezeFault> {
  const { about, lines, given, policy } = revision;
  if (lines.length === 0) return fail('revision-empty', 'Add a line before the revision is sent.');
  const fields = missingWords(lines);
  if (fields.length > 0) {
    return fail('line-words-missing', 'The owner cannot decide on a line that does not say what it is.', {
      fields,
    });
  }
  const priced = priceChoice({ lines, chosen: lines.map(({ id }) => id), given, policy });
  if (!priced.ok) return priced;
  const { lines: prices, totals } = priced.value;
  return ok({
    format: 1,
    about: { ...about },
    lines: lines.flatMap((line, at) => {
      const price = prices[at];
      return price === undefined ? [] : [freezeLine(line, price)];
    }),
    given: {
      steps: given.steps.map(({ step, position, hundredths }) => ({
        step,
        position,
        ...(hundredths === undefined ? {} : { hundredths }),
      })),
      labourCents: given.labourCents,
      suppliesCents: given.suppliesCents,
    },
    policy: freezePolicy(policy),
    totals: figuresOf(totals),
  });
}
