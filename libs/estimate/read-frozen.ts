import { cents } from '#libs/kernel';
import type { Figures } from './choice-price.js';
import type { FrozenRevision } from './frozen-revision.js';

const withDiscount = (figures: Figures): Figures => ({
  ...figures,
  discountCents: (figures as Partial<Figures>).discountCents ?? cents(0),
});

/**
 * A stored document for today's readers, of whatever format it was stored in: what format 1 did not know is nothing. Its
 * prices stay what they were. The hash of what was shown belongs to the document as stored, not to what this returns.
 */
export function readFrozen(stored: FrozenRevision): FrozenRevision {
  return {
    ...stored,
    lines: stored.lines.map((line) => ({
      ...line,
      alone: withDiscount(line.alone),
      together: withDiscount(line.together),
    })),
    totals: withDiscount(stored.totals),
  };
}
