import { Check, Column, Entity, ForeignKey, Index, PrimaryColumn, Unique } from 'typeorm';

@Check('labour_rates_not_negative', '(cents_per_hour >= 0)')
@ForeignKey('ShopRow', ['shopId'], ['shopId'], { name: 'labour_rates_shop' })
@Unique('labour_rates_name_taken', ['shopId', 'name'])
@Index('labour_rates_one_default', ['shopId'], { unique: true, where: 'is_default' })
@Entity('labour_rates')
export class LabourRateRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'labour_rates_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'labour_rates_pkey' })
  id: string;

  @Column('text')
  name: string;

  @Column('integer', { name: 'cents_per_hour' })
  centsPerHour: number;

  @Column('boolean', { name: 'is_default' })
  isDefault: boolean;

  @Column('integer', { default: 1 })
  version: number;
}
