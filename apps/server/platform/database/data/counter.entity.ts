import { Column, Entity, ForeignKey, PrimaryColumn } from 'typeorm';

@ForeignKey('ShopRow', ['shopId'], ['shopId'], { name: 'counters_shop' })
@Entity('counters')
export class CounterRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'counters_pkey' })
  shopId: string;

  @PrimaryColumn('text', { primaryKeyConstraintName: 'counters_pkey' })
  name: string;

  @Column('integer')
  value: number;
}
