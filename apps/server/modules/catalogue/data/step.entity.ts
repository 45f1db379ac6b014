import { Check, Column, Entity, ForeignKey, PrimaryColumn, Unique } from 'typeorm';

@Check('steps_hours', '(hundredths > 0)')
@ForeignKey('ShopRow', ['shopId'], ['shopId'], { name: 'steps_shop' })
@Unique('steps_code_taken', ['shopId', 'code'])
@Entity('steps')
export class StepRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'steps_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'steps_pkey' })
  id: string;

  @Column('text')
  code: string;

  @Column('text')
  name: string;

  @Column('integer')
  hundredths: number;

  @Column('integer')
  version: number;
}
