import { cents } from '#libs/kernel';
import type { ChoiceLine, ChoiceProblem } from '#libs/choice';
import type { FieldReader } from './field-reader.js';

/** Beyond this nobody waits at a terminal. */
const LONGEST_MS = 600_000;
const USUAL_MS = 2000;
/** The greatest benefit or amount: sums stay exact integers. */
const LARGEST = 1_000_000_000_000;

/** Lines and steps of a choice; what names what is checked by the lib. */
export function readChoice(read: FieldReader): ChoiceProblem {
  return {
    lines: read.objects('lines', readLine),
    steps: read.objects('steps', (step) => ({
      id: step.id('id'),
      cents: cents(step.whole('cents', { min: 0, max: LARGEST })),
    })),
  };
}

function readLine(read: FieldReader): ChoiceLine {
  return {
    id: read.id('id'),
    benefit: read.whole('benefit', { min: 0, max: LARGEST }),
    cents: cents(read.whole('cents', { min: 0, max: LARGEST })),
    steps: read.texts('steps'),
    requires: read.optionalTexts('requires'),
    excludes: read.optionalTexts('excludes'),
    mustInclude: read.optionalFlag('mustInclude'),
  };
}

export function readTimeLimit(read: FieldReader): number {
  return read.optionalWhole('timeLimitMs', { min: 1, max: LONGEST_MS }) ?? USUAL_MS;
}
