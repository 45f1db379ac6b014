import {
  CentsField,
  Flag,
  ListOf,
  Nested,
  OneOf,
  Text,
  Uuid,
  UuidList,
  Whole,
} from '../../../platform/http/fields.js';

const SET_KINDS = ['drivable', 'not-to-be-driven'] as const;

export class SumRequest {
  @CentsField({
    optional: true,
    nullable: true,
    description: 'What can be spent beside what is agreed to, tax included. Without it: the ladder only.',
  })
  budgetCents?: number | null;
  @Flag({ optional: true, description: 'The car will not be driven, so that nothing must be in.' })
  notToBeDriven?: boolean;
}

export class ChoicesRequest extends SumRequest {
  @Uuid({ optional: true, description: 'Unless given: the draft, else the revision that was sent last.' })
  revisionId?: string;
}

export class SetLineResponse {
  @Uuid() lineId: string;
  @Text() title: string;
  @Whole() benefit: number;
  @Text({ max: 400 }) why: string;
  @Flag({ description: 'The car may not be driven without it.' }) mustInclude: boolean;
  @CentsField({ description: 'Its share of the price of all that is then agreed to.' }) totalCents: number;
}

export class SetResponse {
  @OneOf(SET_KINDS, {
    description:
      'drivable: every unsafe line is in, or one that stands in for it. The other has the most benefit without that.',
  })
  kind: string;
  @UuidList() chosen: string[];
  @UuidList() leftOut: string[];
  @CentsField({ description: 'On top of what is agreed to; within the budget.' }) priceCents: number;
  @CentsField({ description: 'With what is agreed to and not begun: what a decision expects.' })
  totalCents: number;
  @Whole({ nullable: true, unit: 'millionths of the value of the vehicle' }) ratioOfValuePpm: number | null;
  @Whole() benefit: number;
  @Flag({ description: 'No other set within the budget has more benefit.' }) proven: boolean;
  @Whole({ description: 'No set within the budget has more benefit than this.' }) upperBound: number;
  @ListOf(() => SetLineResponse) lines: SetLineResponse[];
}

export class RungResponse {
  @CentsField({ description: 'The least budget that buys this, on top of what is agreed to.' })
  priceCents: number;
  @Whole() benefit: number;
  @UuidList() chosen: string[];
  @UuidList({ description: 'Against the rung before.' }) added: string[];
  @UuidList() dropped: string[];
  @Whole({ nullable: true, unit: 'millionths of the value of the vehicle' }) ratioOfValuePpm: number | null;
}

export class LadderResponse {
  @OneOf(SET_KINDS, { description: 'Whether every rung makes the car safe.' }) kind: string;
  @Flag({ description: 'At every budget the best set is the dearest rung that it reaches.' }) proven: boolean;
  @ListOf(() => RungResponse) rungs: RungResponse[];
}

export class ChoicesResponse {
  @Uuid() repairOrderId: string;
  @Uuid() revisionId: string;
  @Text() currency: string;
  @CentsField({ nullable: true }) vehicleValueCents: number | null;
  @UuidList({
    description: 'Lines of the revision that are agreed to: outside the budget, their steps paid for.',
  })
  given: string[];
  @CentsField({ description: 'What the given lines cost that have not begun.' }) givenCents: number;
  @CentsField({ nullable: true, description: 'Null when none of the lines can make the car safe.' })
  leastSafeCents: number | null;
  @CentsField({ description: 'Of all that is worth having: the highest rung.' }) allCents: number;
  @ListOf(() => SetResponse) sets: SetResponse[];
  @Nested(() => LadderResponse) ladder: LadderResponse;
}
