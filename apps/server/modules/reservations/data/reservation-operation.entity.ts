import { Check, Column, Entity, ForeignKey, PrimaryColumn, Unique } from 'typeorm';

@Check(
  'reservation_operations_bay_kinds',
  `(bay_kinds <@ ARRAY['lift'::text, 'flat'::text, 'alignment'::text])`,
)
@Check(
  'reservation_operations_hours',
  '((book_hundredths > 0) AND (minutes > 0) AND (minutes_p80 >= minutes))',
)
@Check('reservation_operations_order', '(starts_at < ends_at)')
@ForeignKey('BayRow', ['shopId', 'bayId'], ['shopId', 'id'], { name: 'reservation_operations_bay' })
@ForeignKey('OperationRow', ['shopId', 'operationId'], ['shopId', 'id'], {
  name: 'reservation_operations_operation',
})
@ForeignKey('ReservationRow', ['shopId', 'reservationId'], ['shopId', 'id'], {
  name: 'reservation_operations_reservation',
})
@ForeignKey('StaffMemberRow', ['shopId', 'technicianId'], ['shopId', 'id'], {
  name: 'reservation_operations_technician',
})
@Unique('reservation_operations_sequence_taken', ['shopId', 'reservationId', 'sequence'])
@Entity('reservation_operations')
export class ReservationOperationRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'reservation_operations_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'reservation_operations_pkey' })
  id: string;

  @Column('uuid', { name: 'reservation_id' })
  reservationId: string;

  @Column('integer')
  sequence: number;

  @Column('uuid', { name: 'operation_id', nullable: true })
  operationId: string | null;

  @Column('text', { array: true })
  positions: string[];

  @Column('text')
  title: string;

  @Column('integer', { name: 'book_hundredths' })
  bookHundredths: number;

  @Column('integer')
  minutes: number;

  @Column('integer', { name: 'minutes_p80' })
  minutesP80: number;

  @Column('boolean', { name: 'needs_lift' })
  needsLift: boolean;

  @Column('text', { name: 'bay_kinds', array: true })
  bayKinds: string[];

  @Column('text', { array: true })
  skills: string[];

  /** The one before it in the sequence must be over. */
  @Column('boolean', { name: 'is_after_previous' })
  isAfterPrevious: boolean;

  /** The place that was offered; where it stands now is its assignment. */
  @Column('uuid', { name: 'bay_id' })
  bayId: string;

  @Column('uuid', { name: 'technician_id' })
  technicianId: string;

  @Column('timestamptz', { name: 'starts_at' })
  startsAt: Date;

  @Column('timestamptz', { name: 'ends_at' })
  endsAt: Date;
}
