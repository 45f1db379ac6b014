import { Check, Column, Entity, PrimaryColumn, Unique } from 'typeorm';

@Check('shops_common_spread', '((common_spread_ppm >= 0) AND (common_spread_ppm <= 1000000))')
@Check(
  'shops_day',
  '((0 <= day_starts_minute) AND (day_starts_minute < day_ends_minute) AND (day_ends_minute <= 1440))',
)
@Check('shops_hold_minutes', '((hold_minutes >= 1) AND (hold_minutes <= 120))')
@Check(
  'shops_price_rules',
  '((default_margin_ppm >= 0) AND (default_margin_ppm <= 999000) AND (sublet_markup_ppm >= 0))',
)
@Check(
  'shops_supplies',
  '((supplies_rate_ppm >= 0) AND (supplies_floor_cents >= 0) AND (supplies_cap_cents >= supplies_floor_cents))',
)
@Check(
  'shops_supplies_base',
  `(supplies_base = ANY (ARRAY['labour'::text, 'parts'::text, 'labour-and-parts'::text]))`,
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

  /** As `BenefitWeights`; null while the shop keeps the first ones. */
  @Column('jsonb', { name: 'benefit_weights', nullable: true })
  benefitWeights: object | null;

  /** As `ItemPriceRules` has it; null while the shop has none. */
  @Column('jsonb', { name: 'price_matrix', nullable: true })
  priceMatrix: object | null;

  @Column('integer', { name: 'default_margin_ppm', nullable: true })
  defaultMarginPpm: number | null;

  @Column('integer', { name: 'sublet_markup_ppm', default: 0 })
  subletMarkupPpm: number;

  @Column('text', { name: 'supplies_base', default: 'labour' })
  suppliesBase: string;

  @Column('boolean', { name: 'taxes_combined', default: false })
  taxesCombined: boolean;

  /** Standard deviation of what moves all hours of a car together, such as corrosion, in millionths. */
  @Column('integer', { name: 'common_spread_ppm', default: 100_000 })
  commonSpreadPpm: number;

  /** How long a place is held for somebody on the phone. */
  @Column('integer', { name: 'hold_minutes', default: 15 })
  holdMinutes: number;

  @Column('boolean', { name: 'is_demo' })
  isDemo: boolean;

  @Column('integer')
  version: number;

  @Column('timestamptz', { name: 'created_at' })
  createdAt: Date;
}
