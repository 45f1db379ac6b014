import { NO_CHARGES } from '#libs/estimate';
import {
  CentsField,
  Day,
  Flag,
  Instant,
  ListOf,
  Nested,
  OneOf,
  Text,
  TextList,
  Uuid,
  Whole,
} from '../../../platform/http/fields.js';
import {
  DecisionResponse,
  DiscountResponse,
  FiguresResponse,
  OrderDiscountResponse,
  RangeResponse,
} from '../../estimates/index.js';

import {
  ContingencyStandingResponse,
  RecordedContingencyResponse,
  ShownContingencyResponse,
} from './contingency.response.js';

export class ShownMeasurementResponse {
  @Text() reading: string;
  @Text({ nullable: true }) limit: string | null;
  @Text({ nullable: true, description: 'Where the limit comes from.' }) source: string | null;
}

export class ShownItemResponse {
  @OneOf(['part', 'fluid', 'sublet', 'fee']) kind: string;
  @Text() words: string;
  @Text({ nullable: true, description: 'New, used or rebuilt, and where it comes from.' }) condition:
    string | null;
  @Whole({ unit: 'hundredths of its unit' }) quantityHundredths: number;
  @CentsField() unitPriceCents: number;
  @CentsField() coreCents: number;
}

export class ShownPhotoResponse {
  @Uuid() id: string;
  @Text({ max: 400 }) path: string;
}

export class ShownLineResponse {
  @Uuid() lineId: string;
  @Text() title: string;
  @OneOf(['Watch', 'Repair', 'Unsafe'], { nullable: true }) verdict: string | null;
  @Text({ nullable: true }) mayDrive: string | null;
  @Text({ max: 2000 }) why: string;
  @Text({ nullable: true, max: 1000, description: 'What happens if it waits.' }) consequence: string | null;
  @ListOf(() => ShownMeasurementResponse) measured: ShownMeasurementResponse[];
  @TextList() operations: string[];
  @ListOf(() => ShownItemResponse) items: ShownItemResponse[];
  @OneOf(NO_CHARGES, { nullable: true, description: 'Its labour is not charged, and why.' })
  noCharge: string | null;
  @Nested(() => DiscountResponse, { nullable: true }) discount: DiscountResponse | null;
  @ListOf(() => ShownContingencyResponse, { description: 'What may happen, and what it would cost at most.' })
  contingencies: ShownContingencyResponse[];
  @ListOf(() => ShownPhotoResponse) photos: ShownPhotoResponse[];
  @Nested(() => FiguresResponse, { description: 'If it is the only line chosen.' }) alone: FiguresResponse;
  @Nested(() => FiguresResponse, { description: 'With all lines chosen.' }) together: FiguresResponse;
  @Flag({ description: 'Work has begun: the answer and the price stand.' }) workBegun: boolean;
  @Nested(() => DecisionResponse, { nullable: true }) decision: DecisionResponse | null;
}

export class ApprovalLinkResponse {
  @Text() shopName: string;
  @Text({ nullable: true }) shopPhone: string | null;
  @Whole() repairOrderNumber: number;
  @Whole() revisionNumber: number;
  @Text() vehicle: string;
  @Text({ nullable: true }) plate: string | null;
  @Text() currency: string;
  @Text() timeZone: string;
  @Instant() sentAt: string;
  @Instant({ description: 'Until when the link opens and its prices hold.' }) expiresAt: string;
  @Text({
    description: 'SHA-256 of the canonical form (RFC 8785) of what is shown; goes into the decisions.',
  })
  shownSha256: string;
  @ListOf(() => ShownLineResponse) lines: ShownLineResponse[];
  @Nested(() => OrderDiscountResponse, { nullable: true }) orderDiscount: OrderDiscountResponse | null;
  @Nested(() => RangeResponse, { description: 'Of all lines that can be done at once.' })
  range: RangeResponse;
  @CentsField({ nullable: true, description: 'What the vehicle is worth, if the shop has entered it.' })
  vehicleValueCents: number | null;
  @Nested(() => FiguresResponse, { description: 'Of all lines that are approved and not begun.' })
  chosen: FiguresResponse;
  @CentsField({ description: 'What is agreed to of this revision.' }) approvedCents: number;
  @CentsField({ description: 'What is agreed to over the whole repair order, tax included.' })
  authorisedCents: number;
  @CentsField({ description: 'What may still come on top: agreed caps of what has not happened.' })
  contingentCents: number;
  @Text({ max: 500 }) notice: string;
}

export class DecisionsResponse {
  @Flag({ description: 'True when all of it was recorded already and nothing was added.' }) repeated: boolean;
  @ListOf(() => DecisionResponse, { description: 'What counts now, for every decided line of the revision.' })
  decisions: DecisionResponse[];
  @ListOf(() => ContingencyStandingResponse, {
    description: 'What counts now, for every contingency of the revision.',
  })
  contingencies: ContingencyStandingResponse[];
  @CentsField({
    description:
      'What may still come on top over the whole repair order: agreed caps of what has not happened.',
  })
  contingentCents: number;
  @CentsField({ description: 'What is agreed to of this revision.' }) approvedCents: number;
  @CentsField({ description: 'What is agreed to over the whole repair order, tax included.' })
  authorisedCents: number;
}

export class EvidenceResponse {
  @Text({ nullable: true, description: 'Network address of the owner.' }) address: string | null;
  @Text({ nullable: true, max: 500 }) userAgent: string | null;
  @Text({ nullable: true }) numberCalled: string | null;
  @Text({ nullable: true, max: 1000 }) note: string | null;
  @Text({ nullable: true, description: 'Which wording the owner agreed under.' }) wording: string | null;
  @OneOf(['answered', 'choice-changed'], {
    description: 'choice-changed: approved before; its share of common work became another figure.',
  })
  because: string;
  @CentsField({ description: 'Agreed to on the repair order before these answers.' })
  authorisedBeforeCents: number;
  @CentsField({ description: 'And after them.' }) authorisedAfterCents: number;
}

export class RecordedDecisionResponse extends DecisionResponse {
  @Text({ description: 'The title of the line.' }) title: string;
  @Uuid({ nullable: true }) linkId: string | null;
  @Text({ nullable: true, description: 'Who wrote it down, for a decision by phone or in person.' })
  recordedBy: string | null;
  @Flag({ description: 'Whether it is the latest of its line.' }) counts: boolean;
  @Nested(() => EvidenceResponse) evidence: EvidenceResponse;
  @Day({ nullable: true }) declare lookAgainOn: string | null;
}

export class DecisionLogResponse {
  @ListOf(() => RecordedDecisionResponse, { description: 'In the order of recording.' })
  items: RecordedDecisionResponse[];
  @ListOf(() => RecordedContingencyResponse, { description: 'What was said to contingencies, in order.' })
  contingencies: RecordedContingencyResponse[];
  @CentsField() authorisedCents: number;
  @CentsField({ description: 'What may still come on top: agreed caps of what has not happened.' })
  contingentCents: number;
  @Text({ max: 500 }) notice: string;
}
