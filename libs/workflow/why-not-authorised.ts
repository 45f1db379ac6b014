/** What is known about the owner's answer to a line. Times are given as they are to be shown. */
export interface AnswerSituation {
  readonly title: string;
  readonly revisionNumber: number;
  readonly sentAt: string | null;
  /** The latest answer, or null when there is none. */
  readonly answer: 'approved' | 'declined' | 'deferred' | null;
  readonly answeredAt: string | null;
}

export type NotAuthorisedReason = 'not-sent' | 'no-answer' | 'declined' | 'deferred' | 'not-released';

/**
 * Why work on a line may not be clocked, in words for the person who stands at the car. Only a yes that released the
 * work is agreement; silence is not. Local law decides what else an agreement needs; this is not legal advice.
 */
export function whyNotAuthorised(line: AnswerSituation): { reason: NotAuthorisedReason; detail: string } {
  const { title, revisionNumber: number } = line;
  const at = line.answeredAt === null ? '' : ` on ${line.answeredAt}`;
  if (line.answer === 'declined')
    return { reason: 'declined', detail: `The owner declined "${title}"${at} (revision ${number}).` };
  if (line.answer === 'deferred')
    return {
      reason: 'deferred',
      detail: `The owner put "${title}" off${at} (revision ${number}); it is not to be done now.`,
    };
  if (line.answer === 'approved')
    return { reason: 'not-released', detail: `"${title}" was approved${at}, but its work is not released.` };
  if (line.sentAt === null)
    return {
      reason: 'not-sent',
      detail: `"${title}" is in revision ${number}, which has not been sent to the owner.`,
    };
  return {
    reason: 'no-answer',
    detail: `Revision ${number} with "${title}" was sent on ${line.sentAt}; the owner has not answered.`,
  };
}
