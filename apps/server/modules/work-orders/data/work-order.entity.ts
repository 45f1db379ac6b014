import { Check, Column, Entity, ForeignKey, Index, PrimaryColumn, Unique } from 'typeorm';

@Check('work_orders_approved_only', `(decision_answer = 'approved'::text)`)
@Check(
  'work_orders_checked',
  '(((checked_at IS NULL) = (checked_by IS NULL)) AND ((checked_at IS NULL) OR (finished_at IS NOT NULL)))',
)
@Check('work_orders_finished', '((finished_at IS NULL) = (finished_by IS NULL))')
@Check('work_orders_withdrawn', '((withdrawn_at IS NULL) OR (finished_at IS NULL))')
@ForeignKey(
  'DecisionRow',
  ['shopId', 'decisionId', 'lineId', 'decisionAnswer'],
  ['shopId', 'id', 'lineId', 'answer'],
  { name: 'work_orders_approved' },
)
@ForeignKey('LineRow', ['shopId', 'lineId', 'repairOrderId'], ['shopId', 'id', 'repairOrderId'], {
  name: 'work_orders_line',
})
@Unique('work_orders_in_repair_order', ['shopId', 'id', 'repairOrderId'])
@ForeignKey('RepairOrderRow', ['shopId', 'repairOrderId'], ['shopId', 'id'], {
  name: 'work_orders_repair_order',
})
@Unique('work_orders_of_line', ['shopId', 'id', 'lineId', 'repairOrderId'])
@Unique('work_orders_number_taken', ['shopId', 'number'])
@Index('work_orders_by_finish', ['shopId', 'finishedAt'])
@Index('work_orders_of_repair_order', ['shopId', 'repairOrderId'])
@Index('work_orders_one_a_line', ['shopId', 'lineId'], { unique: true, where: '(withdrawn_at IS NULL)' })
@Index('work_orders_open', ['shopId', 'releasedAt'], {
  where: '((withdrawn_at IS NULL) AND (checked_at IS NULL))',
})
@Entity('work_orders')
export class WorkOrderRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'work_orders_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'work_orders_pkey' })
  id: string;

  @Column('integer')
  number: number;

  @Column('uuid', { name: 'repair_order_id' })
  repairOrderId: string;

  @Column('uuid', { name: 'line_id' })
  lineId: string;

  @Column('uuid', { name: 'decision_id' })
  decisionId: string;

  @Column('text', { name: 'decision_answer' })
  decisionAnswer: string;

  @Column('text')
  title: string;

  @Column('integer', { name: 'book_hundredths' })
  bookHundredths: number;

  @Column('boolean', { name: 'needs_lift' })
  needsLift: boolean;

  @Column('text', { name: 'bay_kinds', array: true })
  bayKinds: string[];

  @Column('text', { array: true })
  skills: string[];

  @Column('text', { array: true })
  cautions: string[];

  @Column('timestamptz', { name: 'released_at' })
  releasedAt: Date;

  @Column('timestamptz', { name: 'withdrawn_at', nullable: true })
  withdrawnAt: Date | null;

  @Column('timestamptz', { name: 'finished_at', nullable: true })
  finishedAt: Date | null;

  @Column('uuid', { name: 'finished_by', nullable: true })
  finishedBy: string | null;

  @Column('timestamptz', { name: 'checked_at', nullable: true })
  checkedAt: Date | null;

  @Column('uuid', { name: 'checked_by', nullable: true })
  checkedBy: string | null;

  @Column('text', { name: 'check_note', nullable: true })
  checkNote: string | null;

  @Column('integer')
  version: number;
}
