import { Column, Entity, ForeignKey, PrimaryColumn } from 'typeorm';

@ForeignKey('ShopRow', ['shopId'], ['shopId'], { name: 'closed_days_shop' })
@Entity('closed_days')
export class ClosedDayRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'closed_days_pkey' })
  shopId: string;

  @PrimaryColumn('date', { primaryKeyConstraintName: 'closed_days_pkey' })
  day: string;

  @Column('text')
  name: string;
}
