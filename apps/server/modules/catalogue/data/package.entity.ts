import { Check, Column, Entity, ForeignKey, PrimaryColumn, Unique } from 'typeorm';

@Check('packages_hours', '(hundredths > 0)')
@ForeignKey('ShopRow', ['shopId'], ['shopId'], { name: 'packages_shop' })
@Unique('packages_name_taken', ['shopId', 'name'])
@Entity('packages')
export class PackageRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'packages_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'packages_pkey' })
  id: string;

  @Column('text')
  name: string;

  @Column('integer')
  hundredths: number;

  @Column('boolean', { name: 'is_active' })
  isActive: boolean;

  @Column('integer')
  version: number;
}
