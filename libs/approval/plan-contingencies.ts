import { fail, ok } from '#libs/kernel';
import type { Cents, Fault, Result } from '#libs/kernel';
import type { ContingencyAnswer, OfferedContingency } from './contingency-answer.js';

/** An answer to a contingency that is to be recorded. */
export interface PlannedContingency {
  readonly contingencyId: string;
  readonly lineId: string;
  readonly agreed: boolean;
  /** What was shown as the most that it may cost. */
  readonly capCents: Cents;
  /** `line-given-up`: agreed before; its line was declined or put off, and nothing can happen on it any more. */
  readonly because: 'answered' | 'line-given-up';
}

export interface ContingenciesInput {
  readonly answers: readonly ContingencyAnswer[];
  /** Of the revision, in its order. */
  readonly offered: readonly OfferedContingency[];
  /** The lines that are approved once the answers to lines are in, those on which work has begun included. */
  readonly approved: ReadonlySet<string>;
}

/**
 * `contingency-not-in-revision`: an answer to one that was not offered here. `contingency-without-line`: agreed to, and
 * its line is not. `contingency-triggered`: it has happened, so the answer to it stays.
 */
export type ContingencyFault = Fault<
  'contingency-not-in-revision' | 'contingency-without-line' | 'contingency-triggered'
>;

const among = (some: readonly OfferedContingency[]): { facts: { contingencyIds: string[] } } => ({
  facts: { contingencyIds: some.map(({ id }) => id) },
});

function refuse(
  { answers, offered, approved }: ContingenciesInput,
  answerTo: ReadonlyMap<string, boolean>,
): Result<void, ContingencyFault> {
  const known = new Set(offered.map(({ id }) => id));
  const stray = answers.filter(({ contingencyId }) => !known.has(contingencyId));
  if (stray.length > 0)
    return fail('contingency-not-in-revision', 'Some of these contingencies are not part of the revision.', {
      facts: { contingencyIds: stray.map(({ contingencyId }) => contingencyId) },
    });
  const late = offered.filter(({ id, lineId, triggered }) => {
    return triggered && (answerTo.get(id) === false || !approved.has(lineId));
  });
  if (late.length > 0)
    return fail(
      'contingency-triggered',
      'It has happened and was done as agreed, so its answer can no longer be changed. Please call the shop.',
      among(late),
    );
  const alone = offered.filter(({ id, lineId }) => answerTo.get(id) === true && !approved.has(lineId));
  if (alone.length > 0)
    return fail(
      'contingency-without-line',
      'A contingency can be agreed to only together with the line that it belongs to.',
      among(alone),
    );
  return ok(undefined);
}

/**
 * What is to be recorded for contingencies once a set of answers is in: one entry for each answer that says something
 * new, and one for each that was agreed to before and ends because its line was given up. Nothing is ever taken for a
 * yes, a repeat adds nothing, and a mind may be changed until the thing has happened, also while work is under way.
 * Either all answers are taken or none.
 */
export function planContingencies(input: ContingenciesInput): Result<PlannedContingency[], ContingencyFault> {
  const answerTo = new Map(input.answers.map(({ contingencyId, agreed }) => [contingencyId, agreed]));
  const allowed = refuse(input, answerTo);
  if (!allowed.ok) return allowed;
  return ok(
    input.offered.flatMap((one): PlannedContingency[] => {
      const { id, lineId, capCents } = one;
      const given = answerTo.get(id);
      const isGivenUp = given === undefined && one.agreed === true && !input.approved.has(lineId);
      const agreed = isGivenUp ? false : given;
      if (one.triggered || agreed === undefined || agreed === one.agreed) return [];
      const because = isGivenUp ? 'line-given-up' : 'answered';
      return [{ contingencyId: id, lineId, agreed, capCents, because }];
    }),
  );
}
