import type { Breakdown } from '#libs/estimate';
import {
  AnyObject,
  CentsField,
  Flag,
  Instant,
  ListOf,
  Nested,
  OneOf,
  Text,
  Uuid,
  UuidList,
  Whole,
} from '../../../platform/http/fields.js';
import { OrderDiscountResponse } from './discount.js';
import { FiguresResponse } from './figures.response.js';
import { LineResponse } from './line.response.js';
import { RangeResponse } from './range.response.js';

export class RevisionPackageResponse {
  @Text() name: string;
  @UuidList() lineIds: string[];
  @Whole({ unit: 'hundredths of an hour' }) hundredths: number;
}

export class RevisionResponse {
  @Uuid() id: string;
  @Uuid() repairOrderId: string;
  @Whole({ min: 1 }) number: number;
  @Whole({ min: 1 }) version: number;
  @OneOf(['draft', 'sent']) state: string;
  @Instant({ nullable: true }) sentAt: string | null;
  @Text({ nullable: true }) sentBy: string | null;
  @Instant({ nullable: true }) validUntil: string | null;
  @Text({ nullable: true, description: 'SHA-256 of the canonical form (RFC 8785) of what is shown.' })
  shownSha256: string | null;
  @ListOf(() => LineResponse) lines: LineResponse[];
  @Nested(() => OrderDiscountResponse, { nullable: true }) orderDiscount: OrderDiscountResponse | null;
  @ListOf(() => RevisionPackageResponse, {
    description:
      'Book times of the shop for exactly these lines together; they hold where all of them are chosen.',
  })
  packages: RevisionPackageResponse[];
  @Nested(() => FiguresResponse, { description: 'With all lines chosen.' }) totals: FiguresResponse;
  @AnyObject({ description: 'How `totals` came about.' }) breakdown: Breakdown;
  @Nested(() => RangeResponse, {
    description: 'With all lines chosen; where nothing varies, all of it is one amount.',
  })
  range: RangeResponse;
  @CentsField({
    description: 'What the owner has agreed to of this revision, with the contingencies that have happened.',
  })
  approvedCents: number;
}

export class EstimateVehicle {
  @Text() words: string;
  @CentsField({ nullable: true, description: 'Null unless the shop has entered it.' }) valueCents:
    number | null;
}

export class EstimateResponse {
  @Uuid() repairOrderId: string;
  @Text() currency: string;
  @CentsField({
    description:
      'What the owner has agreed to so far, tax included, with the contingencies that have happened.',
  })
  authorisedCents: number;
  @CentsField({
    description: 'What may still come on top without asking again: agreed caps of what has not happened.',
  })
  contingentCents: number;
  @Nested(() => EstimateVehicle) vehicle: EstimateVehicle;
  @ListOf(() => RevisionResponse) revisions: RevisionResponse[];
  @Text({ max: 500 }) notice: string;
}

export class ChoiceRequest {
  @UuidList({ description: 'The lines that are chosen; none is fine.' }) chosen: string[];
}

export class ChosenLineResponse {
  @Uuid() lineId: string;
  @Flag() chosen: boolean;
  @Flag({ description: 'Work has begun: the price is fixed as it was agreed, and outside `totals`.' })
  workBegun: boolean;
  @Nested(() => FiguresResponse) alone: FiguresResponse;
  @Nested(() => FiguresResponse, {
    nullable: true,
    description: 'Of a chosen line: what it carries of the choice.',
  })
  figures: FiguresResponse | null;
  @CentsField({ nullable: true, min: -2_000_000_000, description: 'Of any other line: what it would add.' })
  ifAddedCents: number | null;
  @AnyObject({ nullable: true }) breakdown: Breakdown | null;
}

export class ChoiceResponse {
  @Uuid() revisionId: string;
  @Text({ nullable: true }) shownSha256: string | null;
  @UuidList() chosen: string[];
  @ListOf(() => ChosenLineResponse) lines: ChosenLineResponse[];
  @Nested(() => FiguresResponse) totals: FiguresResponse;
  @CentsField({
    description: 'What doing the chosen lines together saves against one by one.',
    min: -2_000_000_000,
  })
  savedCents: number;
  @AnyObject() breakdown: Breakdown;
}
