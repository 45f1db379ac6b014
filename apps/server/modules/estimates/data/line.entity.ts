import { Check, Column, Entity, ForeignKey, Index, PrimaryColumn, Unique } from 'typeorm';

@Check('lines_entered_hours', '(entered_hundredths >= 0)')
@Check('lines_entered_source', '((entered_hundredths IS NULL) OR (entered_source IS NOT NULL))')
@Check('lines_rate_not_negative', '(rate_cents_per_hour >= 0)')
@ForeignKey('LabourRateRow', ['shopId', 'rateId'], ['shopId', 'id'], { name: 'lines_rate' })
@ForeignKey('RepairOrderRow', ['shopId', 'repairOrderId'], ['shopId', 'id'], { name: 'lines_repair_order' })
@ForeignKey('RevisionRow', ['shopId', 'revisionId', 'repairOrderId'], ['shopId', 'id', 'repairOrderId'], {
  name: 'lines_revision',
})
@Unique('lines_in_repair_order', ['shopId', 'id', 'repairOrderId'])
@Unique('lines_sequence_taken', ['shopId', 'revisionId', 'sequence'])
@Index('lines_of_repair_order', ['shopId', 'repairOrderId'])
@Entity('lines')
export class LineRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'lines_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'lines_pkey' })
  id: string;

  @Column('uuid', { name: 'repair_order_id' })
  repairOrderId: string;

  @Column('uuid', { name: 'revision_id' })
  revisionId: string;

  @Column('integer')
  sequence: number;

  @Column('text')
  title: string;

  @Column('text', { nullable: true })
  explanation: string | null;

  @Column('text', { nullable: true })
  consequence: string | null;

  @Column('uuid', { name: 'rate_id' })
  rateId: string;

  @Column('integer', { name: 'rate_cents_per_hour' })
  rateCentsPerHour: number;

  @Column('integer', { name: 'entered_hundredths', nullable: true })
  enteredHundredths: number | null;

  @Column('text', { name: 'entered_source', nullable: true })
  enteredSource: string | null;
}
