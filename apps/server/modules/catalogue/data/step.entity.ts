import { Check, Column, Entity, ForeignKey, PrimaryColumn, Unique } from 'typeorm';

@Check('steps_hours', '(hundredths > 0)')
@ForeignKey('LabourRateRow', ['shopId', 'rateId'], ['shopId', 'id'], { name: 'steps_rate' })
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

  /** Null: the rate of the line that uses it. */
  @Column('uuid', { name: 'rate_id', nullable: true })
  rateId: string | null;

  @Column('integer')
  version: number;
}
