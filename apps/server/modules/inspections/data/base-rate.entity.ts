import { Check, Column, Entity, ForeignKey, PrimaryColumn, Unique } from 'typeorm';

@Check('base_rates_chance', '((chance_ppm >= 0) AND (chance_ppm <= 1000000))')
@Check(
  'base_rates_rise',
  '((0 <= low_cents) AND (low_cents <= likely_cents) AND (likely_cents <= high_cents))',
)
@Check('base_rates_years', '((0 <= from_years) AND (from_years <= to_years))')
@ForeignKey('ShopRow', ['shopId'], ['shopId'], { name: 'base_rates_shop' })
@Unique('base_rates_sequence_taken', ['shopId', 'sequence'])
@Entity('base_rates')
export class BaseRateRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'base_rates_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'base_rates_pkey' })
  id: string;

  @Column('integer')
  sequence: number;

  @Column('text')
  component: string;

  @Column('integer', { name: 'from_years', nullable: true })
  fromYears: number | null;

  @Column('integer', { name: 'to_years', nullable: true })
  toYears: number | null;

  @Column('integer', { name: 'chance_ppm' })
  chancePpm: number;

  @Column('integer', { name: 'low_cents' })
  lowCents: number;

  @Column('integer', { name: 'likely_cents' })
  likelyCents: number;

  @Column('integer', { name: 'high_cents' })
  highCents: number;
}
