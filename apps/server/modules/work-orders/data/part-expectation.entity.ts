import { Column, Entity, ForeignKey, PrimaryColumn, Unique } from 'typeorm';

@ForeignKey('LineItemRow', ['shopId', 'lineItemId'], ['shopId', 'id'], {
  name: 'part_expectations_line_item',
})
@ForeignKey('StaffMemberRow', ['shopId', 'toldBy'], ['shopId', 'id'], { name: 'part_expectations_told_by' })
@Unique('part_expectations_one_at_a_time', ['shopId', 'lineItemId', 'sequence'])
@Entity('part_expectations')
export class PartExpectationRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'part_expectations_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'part_expectations_pkey' })
  id: string;

  @Column('uuid', { name: 'line_item_id' })
  lineItemId: string;

  @Column('integer')
  sequence: number;

  /** Null when nobody knows. */
  @Column('timestamptz', { name: 'expected_at', nullable: true })
  expectedAt: Date | null;

  @Column('timestamptz', { name: 'told_at' })
  toldAt: Date;

  @Column('uuid', { name: 'told_by' })
  toldBy: string;

  @Column('text', { nullable: true })
  note: string | null;
}
