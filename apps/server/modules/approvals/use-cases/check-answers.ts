import { fail, type FieldFault, type Result } from '#libs/kernel';
import type { ContingencyAnswer, GivenAnswer } from '#libs/approval';
import type { Offer } from '../../estimates/index.js';
import { checkContingencies } from './record-contingencies.js';

/** An answer for every line at most once, and only for lines that were shown. */
export function checkAnswers(
  offer: Offer,
  answers: readonly GivenAnswer[],
  contingencies: readonly ContingencyAnswer[],
): Result<void> {
  if (answers.length === 0 && contingencies.length === 0)
    return fail('request-invalid', 'Answer at least one line.', {
      fields: [{ pointer: '/answers', detail: 'Answer at least one line.' }],
    });
  const known = new Set(offer.lines.map(({ id }) => id));
  const at = (index: number, field: string): string => `/answers/${index}/${field}`;
  const stray = answers.flatMap(({ lineId }, index): FieldFault[] =>
    known.has(lineId) ? [] : [{ pointer: at(index, 'lineId'), detail: 'This line was not shown here.' }],
  );
  if (stray.length > 0)
    return fail('line-not-in-revision', 'Some of these lines are not part of the revision.', {
      fields: stray,
    });
  const fields = answers.flatMap(({ lineId, answer, lookAgainOn }, index): FieldFault[] => [
    ...(answers.findIndex((other) => other.lineId === lineId) === index
      ? []
      : [{ pointer: at(index, 'lineId'), detail: 'This line is answered twice.' }]),
    ...(lookAgainOn != null && answer !== 'deferred'
      ? [{ pointer: at(index, 'lookAgainOn'), detail: 'Only a deferred line has a day to look again.' }]
      : []),
  ]);
  if (fields.length > 0) return fail('request-invalid', 'Look at the answers.', { fields });
  return checkContingencies(offer, contingencies);
}
