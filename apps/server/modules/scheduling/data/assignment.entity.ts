import { Check, Column, Entity, Exclusion, ForeignKey, Index, PrimaryColumn } from 'typeorm';

@Check('assignments_bay_until', '(bay_until > ends_at)')
@Check('assignments_by_person_or_run', '(num_nonnulls(made_by, plan_run_id) = 1)')
@Check('assignments_for_one_thing', '(num_nonnulls(work_order_id, reservation_operation_id) = 1)')
@Check('assignments_order', '(starts_at < ends_at)')
@ForeignKey('BayRow', ['shopId', 'bayId'], ['shopId', 'id'], { name: 'assignments_bay' })
@ForeignKey('PlanRunRow', ['shopId', 'planRunId'], ['shopId', 'id'], { name: 'assignments_plan_run' })
@ForeignKey('ReservationOperationRow', ['shopId', 'reservationOperationId'], ['shopId', 'id'], {
  name: 'assignments_reservation_operation',
})
@ForeignKey('StaffMemberRow', ['shopId', 'technicianId'], ['shopId', 'id'], {
  name: 'assignments_technician',
})
@ForeignKey('WorkOrderRow', ['shopId', 'workOrderId'], ['shopId', 'id'], { name: 'assignments_work_order' })
@Exclusion(
  'assignments_bay_no_overlap',
  'USING gist (shop_id WITH =, bay_id WITH =, tstzrange(starts_at, COALESCE(bay_until, ends_at)) WITH &&) WHERE ((cancelled_at IS NULL))',
)
@Exclusion(
  'assignments_technician_no_overlap',
  'USING gist (shop_id WITH =, technician_id WITH =, tstzrange(starts_at, ends_at) WITH &&) WHERE ((cancelled_at IS NULL))',
)
@Index('assignments_by_time', ['shopId', 'startsAt'])
@Index('assignments_one_a_reserved_operation', ['shopId', 'reservationOperationId'], {
  unique: true,
  where: '(cancelled_at IS NULL)',
})
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

  /** What the place is for: this, or a piece of work of a reservation. */
  @Column('uuid', { name: 'work_order_id', nullable: true })
  workOrderId: string | null;

  @Column('uuid', { name: 'reservation_operation_id', nullable: true })
  reservationOperationId: string | null;

  @Column('uuid', { name: 'bay_id' })
  bayId: string;

  @Column('uuid', { name: 'technician_id' })
  technicianId: string;

  @Column('timestamptz', { name: 'starts_at' })
  startsAt: Date;

  @Column('timestamptz', { name: 'ends_at' })
  endsAt: Date;

  /** While the vehicle is apart, how long it keeps the bay after this work, waiting for the next. */
  @Column('timestamptz', { name: 'bay_until', nullable: true })
  bayUntil: Date | null;

  /** The plan leaves it where it is. */
  @Column('boolean', { name: 'is_pinned' })
  isPinned: boolean;

  /** Who gave it this place: a person, or a run of the plan. */
  @Column('uuid', { name: 'made_by', nullable: true })
  madeBy: string | null;

  @Column('uuid', { name: 'plan_run_id', nullable: true })
  planRunId: string | null;

  @Column('timestamptz', { name: 'made_at' })
  madeAt: Date;

  @Column('timestamptz', { name: 'cancelled_at', nullable: true })
  cancelledAt: Date | null;

  @Column('integer')
  version: number;
}
