import { ANSWERS, type Answer } from '#libs/approval';
import { CentsField, Day, Flag, ListOf, OneOf, Text, Uuid } from '../../../platform/http/fields.js';

export const STAFF_CHANNELS = ['phone', 'in-person'] as const;

export class AnswerRequest {
  @Uuid() lineId: string;
  @OneOf(ANSWERS) answer: Answer;
  @Day({ optional: true, nullable: true, description: 'Of a deferred line: when to speak of it again.' })
  lookAgainOn?: string | null;
}

export class ContingencyAnswerRequest {
  @Uuid() contingencyId: string;
  @Flag({ description: 'True: agreed in advance, up to its cap. False: ask me first.' }) agreed: boolean;
}

/** Answers for some or all lines of a revision; a line that is left out keeps what was decided. */
export class DecideRequest {
  @ListOf(() => AnswerRequest, { max: 200 }) answers: AnswerRequest[];
  @ListOf(() => ContingencyAnswerRequest, {
    max: 200,
    optional: true,
    description: 'Agreed to only with their line; one that is left out keeps what was said to it.',
  })
  contingencies?: ContingencyAnswerRequest[];
  @Text({
    min: 64,
    max: 64,
    pattern: /^[0-9a-f]{64}$/,
    hint: 'Give the SHA-256 that came with what was shown.',
  })
  shownSha256: string;
  @CentsField({
    description:
      'The total that was shown for all lines that are then approved and not begun: those approved here and those approved before.',
  })
  expectedTotalCents: number;
  @Text({ min: 2, max: 120, description: 'The name of whoever decides, as they give it.' }) decidedBy: string;
}

export class StaffDecideRequest extends DecideRequest {
  @OneOf(STAFF_CHANNELS) channel: (typeof STAFF_CHANNELS)[number];
  @Text({
    min: 3,
    max: 40,
    optional: true,
    nullable: true,
    description: 'The number called; needed by phone.',
  })
  numberCalled?: string | null;
  @Text({ max: 1000, optional: true, nullable: true }) note?: string | null;
}
