import { CentsField, Text, Whole } from '../../../platform/http/fields.js';

const PPM = { max: 1_000_000, optional: true, nullable: true } as const;

export class LineDiscountEntry {
  @Whole({ ...PPM, unit: 'millionths of the labour' }) labourPpm?: number | null;
  @Whole({ ...PPM, unit: 'millionths of the items', description: 'Not of fees and core deposits.' })
  itemsPpm?: number | null;
  @CentsField({ optional: true, nullable: true, description: 'Off the items, after the percentage.' })
  itemsCents?: number | null;
  @Text({ max: 200, description: 'What the owner reads.' }) reason: string;
}

export class OrderDiscountRequest {
  @Whole({ ...PPM, unit: 'millionths of the labour' }) labourPpm?: number | null;
  @Whole({ ...PPM, unit: 'millionths of the items', description: 'Not of fees and core deposits.' })
  itemsPpm?: number | null;
  @CentsField({
    optional: true,
    nullable: true,
    description: 'Off the order as an amount, once; instead of percentages.',
  })
  cents?: number | null;
  @Text({ max: 200, optional: true, nullable: true, description: 'What the owner reads.' })
  reason?: string | null;
}

export class DiscountResponse {
  @Whole({ nullable: true, unit: 'millionths of the labour' }) labourPpm: number | null;
  @Whole({ nullable: true, unit: 'millionths of the items' }) itemsPpm: number | null;
  @CentsField({ nullable: true, description: 'Off the items of the line.' }) itemsCents: number | null;
  @Text() reason: string;
}

export class OrderDiscountResponse {
  @Whole({ nullable: true, unit: 'millionths of the labour' }) labourPpm: number | null;
  @Whole({ nullable: true, unit: 'millionths of the items' }) itemsPpm: number | null;
  @CentsField({ nullable: true, description: 'Off the order, once.' }) cents: number | null;
  @Text() reason: string;
}
