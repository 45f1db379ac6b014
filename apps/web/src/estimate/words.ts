import type { Contingency, Decision, Line, Order, Revision } from '../api/estimate-types.js';
import type { Mark } from '../ui/marks.js';

export const stageWord: Readonly<Record<Order['stage'], string>> = {
  'dropped-off': 'Dropped off',
  inspecting: 'Being inspected',
  estimating: 'Being estimated',
  'awaiting-decision': 'Waits for the owner’s answer',
  'on-the-floor': 'On the floor',
  checking: 'Being checked',
  ready: 'Ready to be picked up',
  'picked-up': 'Picked up',
};

export const answerWord: Readonly<Record<Decision['answer'], string>> = {
  approved: 'Approved',
  declined: 'Declined',
  deferred: 'Deferred',
};
export const channelWords: Readonly<Record<Decision['channel'], string>> = {
  link: 'by the link',
  phone: 'by phone',
  'in-person': 'in person',
};
export const contingencyState: Readonly<Record<Contingency['state'], string>> = {
  proposed: 'Not answered yet',
  agreed: 'Agreed in advance',
  refused: 'Not agreed to',
  triggered: 'It happened',
};
export const noChargeWord = {
  warranty: 'Labour not charged: warranty',
  goodwill: 'Labour not charged: goodwill',
  comeback: 'Labour not charged: comeback',
} as const;
export const stakeWord = {
  none: 'Nothing much',
  comfort: 'Comfort',
  'dearer-later': 'It becomes dearer',
  stranded: 'The car may strand',
  harm: 'Somebody may be hurt',
} as const;

/** The line's condition mark, by the word that the server took from its worst finding. */
export const markOf = (line: Line): Mark | null =>
  line.word === null ? null : (line.word.toLowerCase() as Mark);

export const lines = (count: number): string => `${count} ${count === 1 ? 'line' : 'lines'}`;

/** `Revision 2, draft` */
export const revisionName = (revision: Pick<Revision, 'number' | 'state'>): string =>
  `Revision ${revision.number}, ${revision.state === 'draft' ? 'draft' : 'sent'}`;

/** `front-left` as it is said: `front left`. */
export const positionWords = (position: string): string => position.replace('-', ' ');

/** `25 in 100` */
export const chanceWords = (ppm: number): string =>
  ppm < 10_000 ? `${Math.round(ppm / 1000)} in 1,000` : `${Math.round(ppm / 10_000)} in 100`;

/** `The line nut seizes` within a sentence; a name in capitals stays as it is. */
export const lowerFirst = (text: string): string =>
  /^\p{Lu}\p{Ll}/u.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;
