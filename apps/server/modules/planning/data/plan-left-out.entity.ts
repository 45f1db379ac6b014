import { Check, Column, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';

/** A work order that a person took out of the plan, until somebody lets it in again. */
@Check('plan_left_out_lifted', '((lifted_at IS NULL) = (lifted_by IS NULL))')
@ForeignKey('StaffMemberRow', ['shopId', 'leftOutBy'], ['shopId', 'id'], { name: 'plan_left_out_by' })
@ForeignKey('StaffMemberRow', ['shopId', 'liftedBy'], ['shopId', 'id'], {
  name: 'plan_left_out_lifted_by',
})
@ForeignKey('WorkOrderRow', ['shopId', 'workOrderId'], ['shopId', 'id'], {
  name: 'plan_left_out_work_order',
})
@Index('plan_left_out_one_live', ['shopId', 'workOrderId'], { unique: true, where: '(lifted_at IS NULL)' })
@Entity('plan_left_out')
export class PlanLeftOutRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'plan_left_out_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'plan_left_out_pkey' })
  id: string;

  @Column('uuid', { name: 'work_order_id' })
  workOrderId: string;

  @Column('uuid', { name: 'left_out_by' })
  leftOutBy: string;

  @Column('timestamptz', { name: 'left_out_at' })
  leftOutAt: Date;

  @Column('timestamptz', { name: 'lifted_at', nullable: true })
  liftedAt: Date | null;

  @Column('uuid', { name: 'lifted_by', nullable: true })
  liftedBy: string | null;
}
