import type { Cents } from '#libs/kernel';

/** What an owner can say to a line. Nothing is ever taken for a yes. */
export const ANSWERS = ['approved', 'declined', 'deferred'] as const;
export type Answer = (typeof ANSWERS)[number];

/** One answer as it was recorded, with the total of the line, tax included, that was on the page at that moment. */
export interface Decision {
  readonly lineId: string;
  readonly answer: Answer;
  readonly shownTotalCents: Cents;
}
