import { Day, OneOf, Text, Whole } from '../../../platform/http/fields.js';

export const BAY_KINDS = ['lift', 'flat', 'alignment'] as const;
export const LIFT_KINDS = ['two-post', 'four-post', 'scissor', 'in-ground'] as const;

export class AddBayRequest {
  @Whole({ min: 1, max: 999, description: 'The number painted on the floor.' }) number: number;
  @Text({ max: 60 }) name: string;
  @OneOf(BAY_KINDS) kind: (typeof BAY_KINDS)[number];
  @OneOf(LIFT_KINDS, { optional: true, nullable: true }) liftKind?: (typeof LIFT_KINDS)[number] | null;
  @Whole({
    min: 1,
    max: 60_000,
    unit: 'kg',
    optional: true,
    nullable: true,
    description: 'Rated capacity from the plate of the lift.',
  })
  capacityKg?: number | null;
  @Whole({ min: 500, max: 10_000, unit: 'mm', optional: true, nullable: true }) maxHeightMm?: number | null;
  @Day({ optional: true, nullable: true, description: 'The last inspection by a qualified lift inspector.' })
  liftInspectedOn?: string | null;
}

export class ChangeBayRequest {
  @Text({ max: 60, optional: true }) name?: string;
  @Day({ optional: true, nullable: true }) liftInspectedOn?: string | null;
  @Text({ max: 200, optional: true, nullable: true, description: 'Null puts the bay back into service.' })
  outOfServiceReason?: string | null;
}
