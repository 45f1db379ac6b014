import type { Answer, Decision } from './decision.js';
import type { ShownFigures } from './shown-figures.js';

/** The latest decision on a line, with what was shown for it. */
export type StandingDecision = Decision &
  ShownFigures & {
    /** Of a deferred line: the day (YYYY-MM-DD) on which the owner wants to hear of it again. */
    readonly lookAgainOn?: string | null;
  };

/** The latest decision for each line that has one. */
export type Standing = ReadonlyMap<string, StandingDecision>;

/** What comes in: an answer for a line. */
export interface GivenAnswer {
  readonly lineId: string;
  readonly answer: Answer;
  /** Undefined leaves a day that was given before. */
  readonly lookAgainOn?: string | null;
}

/** Whether an answer says what is recorded already, figures apart. */
export function saysTheSame(incoming: GivenAnswer, current: StandingDecision | undefined): boolean {
  if (current?.answer !== incoming.answer) return false;
  return incoming.lookAgainOn === undefined || incoming.lookAgainOn === (current.lookAgainOn ?? null);
}
