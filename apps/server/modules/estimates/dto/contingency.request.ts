import { ITEM_KINDS, type ItemKind } from '#libs/estimate';
import { ListOf, OneOf, Text, Whole } from '../../../platform/http/fields.js';
import { ITEM_CONDITIONS, ITEM_SOURCES } from './line.request.js';

/** The most likely is still not certain: what is sure to happen belongs to the line. */
const MOST_LIKELY = 999_999;

export class ContingencyItemRequest {
  @OneOf(ITEM_KINDS) kind: ItemKind;
  @Text({ max: 120, description: 'What the owner reads.' }) name: string;
  @Text({ max: 60, optional: true, nullable: true }) partNumber?: string | null;
  @OneOf(ITEM_CONDITIONS, { optional: true, nullable: true, description: 'A part says it.' })
  condition?: (typeof ITEM_CONDITIONS)[number] | null;
  @OneOf(ITEM_SOURCES, { optional: true, nullable: true, description: 'A part says it.' })
  source?: (typeof ITEM_SOURCES)[number] | null;
  @Whole({ min: 1, max: 10_000_000, unit: 'hundredths of its unit' }) quantityHundredths: number;
  @Whole({ max: 100_000_000, unit: 'cents' }) unitPriceCents: number;
  @Whole({
    max: 100_000_000,
    unit: 'cents',
    optional: true,
    nullable: true,
    description: 'What the shop pays; never shown to the owner.',
  })
  unitCostCents?: number | null;
  @Whole({ max: 100_000_000, unit: 'cents', optional: true }) coreCents?: number;
}

export class AddContingencyRequest {
  @Text({ max: 200, description: 'What may happen, as the owner reads it: "The line nut seizes".' })
  what: string;
  @Whole({ min: 1, max: MOST_LIKELY, unit: 'millionths', description: 'How likely: 250 000 is 1 in 4.' })
  chancePpm: number;
  @Whole({ max: 100_000, unit: 'hundredths of an hour', description: 'Extra book hours if it happens.' })
  hundredths: number;
  @Whole({
    min: 1,
    max: 100_000_000,
    unit: 'cents',
    description: 'The most that is charged for it, tax included; what the owner may agree to in advance.',
  })
  capCents: number;
  @ListOf(() => ContingencyItemRequest, { optional: true, max: 20 }) items?: ContingencyItemRequest[];
}

/** A list that is given replaces the whole list. */
export class ChangeContingencyRequest {
  @Text({ max: 200, optional: true }) what?: string;
  @Whole({ min: 1, max: MOST_LIKELY, unit: 'millionths', optional: true }) chancePpm?: number;
  @Whole({ max: 100_000, unit: 'hundredths of an hour', optional: true }) hundredths?: number;
  @Whole({ min: 1, max: 100_000_000, unit: 'cents', optional: true }) capCents?: number;
  @ListOf(() => ContingencyItemRequest, { optional: true, max: 20 }) items?: ContingencyItemRequest[];
}
