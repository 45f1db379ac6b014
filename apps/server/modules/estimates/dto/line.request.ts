import { ITEM_KINDS, POSITIONS, type ItemKind, type Position } from '#libs/estimate';
import {
  Instant,
  ListOf,
  OneOf,
  Text,
  TextList,
  Uuid,
  UuidList,
  Whole,
} from '../../../platform/http/fields.js';

export const ITEM_CONDITIONS = ['new', 'used', 'rebuilt'] as const;
export const ITEM_SOURCES = ['stock', 'supplier', 'used', 'donor-vehicle', 'customer-supplied'] as const;

export class LineOperationRequest {
  @Uuid() operationId: string;
  @TextList({ values: POSITIONS, max: POSITIONS.length, description: 'Where on the vehicle it is done.' })
  positions: Position[];
}

export class LineItemRequest {
  @OneOf(ITEM_KINDS) kind: ItemKind;
  @Text({ max: 120, description: 'What the owner reads.' }) name: string;
  @Text({ max: 60, optional: true, nullable: true }) partNumber?: string | null;
  @OneOf(ITEM_CONDITIONS, { optional: true, nullable: true, description: 'A part says it.' })
  condition?: (typeof ITEM_CONDITIONS)[number] | null;
  @OneOf(ITEM_SOURCES, { optional: true, nullable: true, description: 'A part says it.' })
  source?: (typeof ITEM_SOURCES)[number] | null;
  @Whole({
    min: 1,
    max: 10_000_000,
    unit: 'hundredths of its unit',
    description: 'Two pads are 200, 4.5 litres are 450.',
  })
  quantityHundredths: number;
  @Whole({ max: 100_000_000, unit: 'cents' }) unitPriceCents: number;
  @Whole({
    max: 100_000_000,
    unit: 'cents',
    optional: true,
    nullable: true,
    description: 'What the shop pays; never shown to the owner.',
  })
  unitCostCents?: number | null;
  @Whole({
    max: 100_000_000,
    unit: 'cents',
    optional: true,
    description: 'Deposit on the returnable old part, for each unit.',
  })
  coreCents?: number;
  @Instant({ optional: true, nullable: true }) expectedAt?: string | null;
}

export class AddLineRequest {
  @UuidList({ optional: true, max: 30, description: 'The findings that the line answers.' })
  findingIds?: string[];
  @Text({ max: 120, optional: true, description: 'Unless given: the title of the worst finding.' })
  title?: string;
  @Text({
    max: 2000,
    optional: true,
    nullable: true,
    description: 'Why; unless given: the words of the worst finding.',
  })
  explanation?: string | null;
  @Text({
    max: 1000,
    optional: true,
    nullable: true,
    description: 'What happens if it waits; unless given: that of the worst finding.',
  })
  consequence?: string | null;
  @Uuid({ optional: true, description: 'Labour rate; unless given: the default of the shop.' })
  rateId?: string;
  @ListOf(() => LineOperationRequest, { optional: true, max: 30 }) operations?: LineOperationRequest[];
  @Whole({
    max: 100_000,
    optional: true,
    nullable: true,
    unit: 'hundredths of an hour',
    description: 'Book time that the shop enters; it replaces the sum of the steps of the operations.',
  })
  enteredHundredths?: number | null;
  @Text({
    max: 120,
    optional: true,
    nullable: true,
    description: 'Where entered hours come from, such as "shop\'s own time".',
  })
  enteredSource?: string | null;
  @ListOf(() => LineItemRequest, { optional: true, max: 60 }) items?: LineItemRequest[];
}

/** A list that is given replaces the whole list. */
export class ChangeLineRequest extends AddLineRequest {}
