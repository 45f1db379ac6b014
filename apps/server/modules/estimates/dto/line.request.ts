import { CONSEQUENCES, type Consequence } from '#libs/choice';
import {
  ITEM_KINDS,
  NO_CHARGES,
  POSITIONS,
  PRICE_RULES,
  type ItemKind,
  type NoCharge,
  type Position,
  type PriceRule,
} from '#libs/estimate';
import {
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
import { LineDiscountEntry } from './discount.js';
import { LineSpread } from './spread.js';

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
  @OneOf(PRICE_RULES, {
    optional: true,
    description:
      'How the price follows from cost or list price, by the price rules of the shop; unless given: entered.',
  })
  priceRule?: PriceRule;
  @Whole({
    max: 100_000_000,
    unit: 'cents',
    optional: true,
    nullable: true,
    description: 'For the rule "entered"; any other rule finds it.',
  })
  unitPriceCents?: number | null;
  @Whole({ max: 100_000_000, unit: 'cents', optional: true, nullable: true }) listCents?: number | null;
  @Whole({
    max: 999_000,
    unit: 'millionths of the price',
    optional: true,
    nullable: true,
    description: 'For the rule "margin"; unless given: the usual margin of the shop.',
  })
  marginPpm?: number | null;
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
  @OneOf(CONSEQUENCES, {
    optional: true,
    nullable: true,
    description: 'What waiting puts at stake; null: what the worst finding says.',
  })
  stake?: Consequence | null;
  @UuidList({
    optional: true,
    max: 60,
    description: 'Lines of this revision without which it makes no sense.',
  })
  requires?: string[];
  @UuidList({ optional: true, max: 60, description: 'Lines of this revision that it stands in for.' })
  excludes?: string[];
  @Nested(() => LineSpread, {
    optional: true,
    nullable: true,
    description: 'Null or not given: the line is sure, but for what moves all hours.',
  })
  spread?: LineSpread | null;
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
  @OneOf(NO_CHARGES, {
    optional: true,
    nullable: true,
    description: 'Its labour is not charged, and why; its book hours stay.',
  })
  noCharge?: NoCharge | null;
  @Nested(() => LineDiscountEntry, { optional: true, nullable: true }) discount?: LineDiscountEntry | null;
  @ListOf(() => LineItemRequest, { optional: true, max: 60 }) items?: LineItemRequest[];
}

/** A list that is given replaces the whole list. */
export class ChangeLineRequest extends AddLineRequest {}
