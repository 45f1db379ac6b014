import type { Breakdown } from '#libs/estimate';
import {
  AnyObject,
  CentsField,
  Instant,
  ListOf,
  Nested,
  OneOf,
  Text,
  TextList,
  Uuid,
  Whole,
} from '../../../platform/http/fields.js';
import { DecisionResponse } from './decision.response.js';
import { FiguresResponse } from './figures.response.js';

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
  @Nested(() => FiguresResponse, { description: 'As the only line of its revision that is chosen.' })
  alone: FiguresResponse;
  @Nested(() => FiguresResponse, { description: 'With all lines of its revision chosen.' })
  together: FiguresResponse;
  @AnyObject({ description: 'How `together` came about: figure, of, cents or hundredths, rule, inputs.' })
  breakdown: Breakdown;
  @Nested(() => DecisionResponse, { nullable: true, description: 'The latest; null while undecided.' })
  decision: DecisionResponse | null;
}
