import { CONSEQUENCES } from '#libs/choice';
import { NO_CHARGES, PRICE_RULES, type Breakdown } from '#libs/estimate';
import {
  AnyObject,
  CentsField,
  Flag,
  Instant,
  ListOf,
  Nested,
  OneOf,
  Text,
  TextList,
  Uuid,
  UuidList,
  Whole,
} from '../../../platform/http/fields.js';
import { ContingencyResponse } from './contingency.response.js';
import { DecisionResponse } from './decision.response.js';
import { DiscountResponse } from './discount.js';
import { FiguresResponse } from './figures.response.js';
import { LineSpread } from './spread.js';

export class LineFindingResponse {
  @Uuid() findingId: string;
  @Text() title: string;
  @OneOf(['Watch', 'Repair', 'Unsafe']) word: string;
  @OneOf(['yes', 'to-the-shop-only', 'no']) mayDrive: string;
}

export class LineOperationResponse {
  @Uuid() operationId: string;
  @Text() name: string;
  @TextList() positions: string[];
}

export class LineStepResponse {
  @Uuid() stepId: string;
  @Text() name: string;
  @Text() position: string;
  @Whole({ unit: 'hundredths of an hour' }) hundredths: number;
  @CentsField({ nullable: true, description: 'A rate of its own; null: that of the line.' })
  rateCentsPerHour: number | null;
}

export class BenefitResponse {
  @Whole({ description: "On the shop's own scale." }) benefit: number;
  @Text({ max: 400, description: 'For the owner: why it weighs what it weighs.' }) why: string;
}

export class LineItemResponse {
  @Uuid() id: string;
  @OneOf(['part', 'fluid', 'sublet', 'fee']) kind: string;
  @Text() name: string;
  @Text({ nullable: true }) partNumber: string | null;
  @Text({ nullable: true }) condition: string | null;
  @Text({ nullable: true }) source: string | null;
  @Whole({ unit: 'hundredths of its unit' }) quantityHundredths: number;
  @CentsField() unitPriceCents: number;
  @OneOf(PRICE_RULES, { nullable: true, description: 'Null for whoever may not write estimates.' })
  priceRule: string | null;
  @CentsField({ nullable: true, description: 'Null for whoever may not write estimates.' })
  listCents: number | null;
  @Whole({
    nullable: true,
    unit: 'millionths of the price',
    description:
      'The margin that its price was found by; null for any other rule, and for whoever may not write estimates.',
  })
  marginPpm: number | null;
  @AnyObject({
    nullable: true,
    description: 'How the price came about; null for whoever may not write estimates.',
  })
  priceBreakdown: Breakdown | null;
  @CentsField({ nullable: true, description: 'Null for whoever may not write estimates.' })
  unitCostCents: number | null;
  @CentsField() coreCents: number;
  @Instant({ nullable: true }) expectedAt: string | null;
}

export class LineResponse {
  @Uuid() id: string;
  @Uuid() revisionId: string;
  @Whole({ description: 'Of the revision; the ETag for changes of its lines.' }) version: number;
  @Whole() sequence: number;
  @Text() title: string;
  @Text({ nullable: true, max: 2000 }) explanation: string | null;
  @Text({ nullable: true, max: 1000 }) consequence: string | null;
  @OneOf(CONSEQUENCES, { nullable: true, description: 'Null: what the worst finding says.' })
  stake: string | null;
  @Nested(() => BenefitResponse, { description: 'By the weights of now; once sent, as it was frozen.' })
  benefit: BenefitResponse;
  @Flag({ description: 'The car may not be driven without it.' }) mustInclude: boolean;
  @UuidList() requires: string[];
  @UuidList() excludes: string[];
  @OneOf(['Watch', 'Repair', 'Unsafe'], { nullable: true, description: 'Of the worst finding.' })
  word: string | null;
  @ListOf(() => LineFindingResponse) findings: LineFindingResponse[];
  @Uuid() rateId: string;
  @CentsField() rateCentsPerHour: number;
  @Whole({ nullable: true }) enteredHundredths: number | null;
  @Text({ nullable: true }) enteredSource: string | null;
  @ListOf(() => LineOperationResponse) operations: LineOperationResponse[];
  @ListOf(() => LineStepResponse, { description: 'Hours as they were when the line was saved.' })
  steps: LineStepResponse[];
  @ListOf(() => LineItemResponse) items: LineItemResponse[];
  @OneOf(NO_CHARGES, { nullable: true, description: 'Its labour is not charged, and why.' })
  noCharge: string | null;
  @Nested(() => DiscountResponse, { nullable: true }) discount: DiscountResponse | null;
  @Nested(() => LineSpread, { nullable: true }) spread: LineSpread | null;
  @ListOf(() => ContingencyResponse, {
    description: 'Extras that are charged only if a named thing happens.',
  })
  contingencies: ContingencyResponse[];
  @Nested(() => FiguresResponse, { description: 'As the only line of its revision that is chosen.' })
  alone: FiguresResponse;
  @Nested(() => FiguresResponse, { description: 'With all lines of its revision chosen.' })
  together: FiguresResponse;
  @AnyObject({ description: 'How `together` came about: figure, of, cents or hundredths, rule, inputs.' })
  breakdown: Breakdown;
  @Nested(() => DecisionResponse, { nullable: true, description: 'The latest; null while undecided.' })
  decision: DecisionResponse | null;
}
