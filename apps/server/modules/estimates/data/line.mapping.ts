import { bookHundredths, cents } from '#libs/kernel';
import { verdictWord, worstFinding, type VerdictWord } from '#libs/inspection';
import type { EstimateLine, Measured, RevisionLine } from '#libs/estimate';
import type { LineFacts } from '../queries/lines.query.js';
import { lineDiscount } from './discount.mapping.js';
import { ASKED_FOR, conditionWords, MAY_DRIVE_WORDS, readingWords } from '../shown-words.js';

/** A line as far as its price goes. Entered hours are one step that no other line can share. */
export function estimateLine(line: LineFacts): EstimateLine {
  const entered = line.enteredHundredths;
  return {
    id: line.id,
    rateId: line.rateId,
    rateCentsPerHour: cents(line.rateCentsPerHour),
    steps:
      entered === null
        ? line.steps.map(({ stepId, position, hundredths, ...own }) => ({
            step: stepId,
            position,
            hundredths: bookHundredths(hundredths),
            ...(own.rateId === null || own.rateCentsPerHour === null
              ? {}
              : { rateId: own.rateId, rateCentsPerHour: cents(own.rateCentsPerHour) }),
          }))
        : [{ step: `entered:${line.id}`, position: 'vehicle', hundredths: bookHundredths(entered) }],
    ...(line.noCharge === null ? {} : { noCharge: line.noCharge }),
    ...(line.discount === null ? {} : { discount: lineDiscount(line.discount) }),
    items: line.items.map((item) => ({
      id: item.id,
      kind: item.kind,
      quantityHundredths: item.quantityHundredths,
      unitPriceCents: cents(item.unitPriceCents),
      coreCents: cents(item.coreCents),
    })),
  };
}

export function wordOfLine(line: LineFacts): VerdictWord | null {
  const worst = worstFinding(line.findings);
  return worst === undefined ? null : verdictWord(worst);
}

function measuredOf(line: LineFacts): Measured[] {
  return line.findings.flatMap(({ readings, limitText, limitSource }) =>
    readings.map((reading, at) => ({
      reading: readingWords(reading),
      // The limit belongs to the observation as a whole and stands beside its first reading.
      limit: at === 0 ? limitText : null,
      source: at === 0 ? limitSource : null,
    })),
  );
}

/** A line with everything that the owner is shown. What the line does not say, its worst finding says. */
export function revisionLine(line: LineFacts): RevisionLine {
  const worst = worstFinding(line.findings);
  const measured = measuredOf(line);
  const priced = estimateLine(line);
  return {
    ...priced,
    title: line.title,
    verdict: wordOfLine(line),
    mayDrive: worst === undefined ? null : MAY_DRIVE_WORDS[worst.mayDrive],
    why:
      line.explanation ??
      worst?.explanation ??
      (worst === undefined ? ASKED_FOR : measured.map(({ reading }) => reading).join(', ')),
    consequence: line.consequence ?? worst?.consequence ?? null,
    measured,
    photos: line.findings.flatMap(({ photos }) => photos),
    operations: line.operations.map(({ name }) => name),
    ...(line.spread === null ? {} : { spread: line.spread }),
    items: priced.items.map((item, at) => {
      const facts = line.items[at];
      return {
        ...item,
        words: facts?.name ?? '',
        condition: conditionWords(facts?.condition ?? null, facts?.source ?? null),
      };
    }),
  };
}
