import { Check, Column, Entity, PrimaryColumn, Unique } from 'typeorm';

@Check(
  'shops_day',
  '((0 <= day_starts_minute) AND (day_starts_minute < day_ends_minute) AND (day_ends_minute <= 1440))',
)
@Check(
  'shops_supplies',
  '((supplies_rate_ppm >= 0) AND (supplies_floor_cents >= 0) AND (supplies_cap_cents >= supplies_floor_cents))',
)
@Check('shops_tax_rounding', `(tax_rounding = ANY (ARRAY['line'::text, 'invoice'::text]))`)
@Unique('shops_slug_taken', ['slug'])
@Entity('shops')
export class ShopRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'shops_pkey' })
  shopId: string;

  @Column('text')
  slug: string;

  @Column('text')
  name: string;

  @Column('text', { nullable: true })
  phone: string | null;

  @Column('text', { nullable: true })
  address: string | null;

  @Column('text', { name: 'time_zone' })
  timeZone: string;

  @Column('text')
  currency: string;

  @Column('text', { nullable: true })
  jurisdiction: string | null;

  @Column('integer', { name: 'day_starts_minute' })
  dayStartsMinute: number;

  @Column('integer', { name: 'day_ends_minute' })
  dayEndsMinute: number;

  @Column('text', { name: 'tax_rounding' })
  taxRounding: string;

  @Column('integer', { name: 'supplies_rate_ppm' })
  suppliesRatePpm: number;

  @Column('integer', { name: 'supplies_floor_cents' })
  suppliesFloorCents: number;

  @Column('integer', { name: 'supplies_cap_cents', nullable: true })
  suppliesCapCents: number | null;

  @Column('integer', { name: 'link_valid_hours' })
  linkValidHours: number;

  @Column('boolean', { name: 'is_demo' })
  isDemo: boolean;

  @Column('integer')
  version: number;

  @Column('timestamptz', { name: 'created_at' })
  createdAt: Date;
}
