import { Check, Column, Entity, Exclusion, ForeignKey, Index, PrimaryColumn } from 'typeorm';

@Check('assignments_order', '(starts_at < ends_at)')
@ForeignKey('BayRow', ['shopId', 'bayId'], ['shopId', 'id'], { name: 'assignments_bay' })
@ForeignKey('StaffMemberRow', ['shopId', 'technicianId'], ['shopId', 'id'], {
  name: 'assignments_technician',
})
@ForeignKey('WorkOrderRow', ['shopId', 'workOrderId'], ['shopId', 'id'], { name: 'assignments_work_order' })
@Exclusion(
  'assignments_bay_no_overlap',
  'USING gist (shop_id WITH =, bay_id WITH =, tstzrange(starts_at, ends_at) WITH &&) WHERE ((cancelled_at IS NULL))',
)
@Exclusion(
  'assignments_technician_no_overlap',
  'USING gist (shop_id WITH =, technician_id WITH =, tstzrange(starts_at, ends_at) WITH &&) WHERE ((cancelled_at IS NULL))',
)
@Index('assignments_by_time', ['shopId', 'startsAt'])
@Index('assignments_one_a_work_order', ['shopId', 'workOrderId'], {
  unique: true,
  where: '(cancelled_at IS NULL)',
})
@Entity('assignments')
export class AssignmentRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'assignments_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'assignments_pkey' })
  id: string;

  @Column('uuid', { name: 'work_order_id' })
  workOrderId: string;

  @Column('uuid', { name: 'bay_id' })
  bayId: string;

  @Column('uuid', { name: 'technician_id' })
  technicianId: string;

  @Column('timestamptz', { name: 'starts_at' })
  startsAt: Date;

  @Column('timestamptz', { name: 'ends_at' })
  endsAt: Date;

  @Column('uuid', { name: 'made_by' })
  madeBy: string;

  @Column('timestamptz', { name: 'made_at' })
  madeAt: Date;

  @Column('timestamptz', { name: 'cancelled_at', nullable: true })
  cancelledAt: Date | null;

  @Column('integer')
  version: number;
}
