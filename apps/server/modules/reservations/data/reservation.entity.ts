import { Check, Column, Entity, ForeignKey, Index, PrimaryColumn, Unique } from 'typeorm';

@Check('reservations_height', '((height_mm >= 500) AND (height_mm <= 5000))')
@Check(
  'reservations_held_or_taken',
  '(((taken_at IS NULL) = (expires_at IS NOT NULL)) AND ((taken_at IS NULL) = (taken_by IS NULL)) AND ((taken_at IS NULL) = (promised_at IS NULL)) AND ((taken_at IS NULL) = (lapses_at IS NULL)))',
)
@Check(
  'reservations_order',
  '((arrives_at <= ready_at) AND (ready_at <= ready_p80_at) AND (promised_at >= arrives_at))',
)
@Check(
  'reservations_release_reason',
  `(release_reason = ANY (ARRAY['expired'::text, 'given-back'::text, 'used'::text, 'not-come'::text]))`,
)
@Check('reservations_released', '((released_at IS NULL) = (release_reason IS NULL))')
@Check(
  'reservations_taken_for_somebody',
  '((taken_at IS NULL) OR (((customer_id IS NOT NULL) OR (customer_name IS NOT NULL)) AND ((customer_id IS NOT NULL) OR (phone IS NOT NULL)) AND ((vehicle_id IS NOT NULL) OR (vehicle_words IS NOT NULL))))',
)
@Check(
  'reservations_used_for_a_repair_order',
  `((release_reason <> 'used'::text) OR (repair_order_id IS NOT NULL))`,
)
@Check('reservations_weight', '((weight_kg >= 100) AND (weight_kg <= 60000))')
@ForeignKey('CustomerRow', ['shopId', 'customerId'], ['shopId', 'id'], { name: 'reservations_customer' })
@ForeignKey('RepairOrderRow', ['shopId', 'repairOrderId'], ['shopId', 'id'], {
  name: 'reservations_repair_order',
})
@ForeignKey('StaffMemberRow', ['shopId', 'madeBy'], ['shopId', 'id'], { name: 'reservations_made_by' })
@ForeignKey('StaffMemberRow', ['shopId', 'releasedBy'], ['shopId', 'id'], {
  name: 'reservations_released_by',
})
@ForeignKey('StaffMemberRow', ['shopId', 'takenBy'], ['shopId', 'id'], { name: 'reservations_taken_by' })
@ForeignKey('VehicleRow', ['shopId', 'vehicleId'], ['shopId', 'id'], { name: 'reservations_vehicle' })
@Index('reservations_one_a_repair_order', ['shopId', 'repairOrderId'], {
  unique: true,
  where: '(repair_order_id IS NOT NULL)',
})
@Index('reservations_open', ['shopId', 'arrivesAt'], { where: '(released_at IS NULL)' })
@Unique('reservations_number_taken', ['shopId', 'number'])
@Entity('reservations')
export class ReservationRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'reservations_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'reservations_pkey' })
  id: string;

  @Column('integer')
  number: number;

  @Column('uuid', { name: 'made_by' })
  madeBy: string;

  @Column('timestamptz', { name: 'made_at' })
  madeAt: Date;

  /** While it is only held; null once it is taken. */
  @Column('timestamptz', { name: 'expires_at', nullable: true })
  expiresAt: Date | null;

  @Column('timestamptz', { name: 'extended_at', nullable: true })
  extendedAt: Date | null;

  @Column('timestamptz', { name: 'taken_at', nullable: true })
  takenAt: Date | null;

  @Column('uuid', { name: 'taken_by', nullable: true })
  takenBy: string | null;

  /** The end of the day on which its work was to begin: whoever has not come by then has no place any more. */
  @Column('timestamptz', { name: 'lapses_at', nullable: true })
  lapsesAt: Date | null;

  @Column('timestamptz', { name: 'released_at', nullable: true })
  releasedAt: Date | null;

  @Column('uuid', { name: 'released_by', nullable: true })
  releasedBy: string | null;

  @Column('text', { name: 'release_reason', nullable: true })
  releaseReason: string | null;

  @Column('uuid', { name: 'repair_order_id', nullable: true })
  repairOrderId: string | null;

  @Column('uuid', { name: 'customer_id', nullable: true })
  customerId: string | null;

  @Column('text', { name: 'customer_name', nullable: true })
  customerName: string | null;

  @Column('text', { nullable: true })
  phone: string | null;

  @Column('uuid', { name: 'vehicle_id', nullable: true })
  vehicleId: string | null;

  @Column('text', { name: 'vehicle_words', nullable: true })
  vehicleWords: string | null;

  @Column('integer', { name: 'weight_kg', nullable: true })
  weightKg: number | null;

  @Column('integer', { name: 'height_mm', nullable: true })
  heightMm: number | null;

  @Column('text', { nullable: true })
  note: string | null;

  @Column('timestamptz', { name: 'arrives_at' })
  arrivesAt: Date;

  @Column('timestamptz', { name: 'ready_at' })
  readyAt: Date;

  @Column('timestamptz', { name: 'ready_p80_at' })
  readyP80At: Date;

  @Column('timestamptz', { name: 'promised_at', nullable: true })
  promisedAt: Date | null;

  @Column('integer')
  version: number;
}
