import { Check, Column, Entity, ForeignKey, PrimaryColumn, Unique } from 'typeorm';

@Check('special_tools_units', '(units > 0)')
@ForeignKey('ShopRow', ['shopId'], ['shopId'], { name: 'special_tools_shop' })
@Unique('special_tools_name_taken', ['shopId', 'name'])
@Entity('special_tools')
export class SpecialToolRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'special_tools_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'special_tools_pkey' })
  id: string;

  @Column('text')
  name: string;

  @Column('integer')
  units: number;

  @Column('integer')
  version: number;
}
