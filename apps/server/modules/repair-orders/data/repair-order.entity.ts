import { Check, Column, Entity, ForeignKey, Index, PrimaryColumn, Unique } from 'typeorm';

@Check(
  'repair_orders_odometer',
  '(((odometer_in >= 0) AND (odometer_in <= 3000000)) AND (odometer_out >= odometer_in))',
)
@Check('repair_orders_odometer_unit', `(odometer_unit = ANY (ARRAY['km'::text, 'mi'::text]))`)
@ForeignKey('CustomerRow', ['shopId', 'customerId'], ['shopId', 'id'], { name: 'repair_orders_customer' })
@ForeignKey('StaffMemberRow', ['shopId', 'openedBy'], ['shopId', 'id'], { name: 'repair_orders_opened_by' })
@ForeignKey('VehicleRow', ['shopId', 'vehicleId'], ['shopId', 'id'], { name: 'repair_orders_vehicle' })
@Unique('repair_orders_number_taken', ['shopId', 'number'])
@Unique('repair_orders_of_vehicle', ['shopId', 'vehicleId', 'id'])
@Index('repair_orders_of_customer', ['shopId', 'customerId'])
@Index('repair_orders_recent', ['shopId', 'droppedOffAt'])
@Index('repair_orders_vehicle_is_here', ['shopId', 'vehicleId'], {
  unique: true,
  where: '(picked_up_at IS NULL)',
})
@Entity('repair_orders')
export class RepairOrderRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'repair_orders_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'repair_orders_pkey' })
  id: string;

  @Column('integer')
  number: number;

  @Column('uuid', { name: 'vehicle_id' })
  vehicleId: string;

  @Column('uuid', { name: 'customer_id' })
  customerId: string;

  @Column('text')
  concern: string;

  @Column('text', { name: 'odometer_unit' })
  odometerUnit: string;

  @Column('integer', { name: 'odometer_in' })
  odometerIn: number;

  @Column('integer', { name: 'odometer_out', nullable: true })
  odometerOut: number | null;

  @Column('boolean', { name: 'wants_parts_back' })
  wantsPartsBack: boolean;

  @Column('timestamptz', { name: 'dropped_off_at' })
  droppedOffAt: Date;

  @Column('timestamptz', { name: 'promised_at', nullable: true })
  promisedAt: Date | null;

  @Column('timestamptz', { name: 'picked_up_at', nullable: true })
  pickedUpAt: Date | null;

  @Column('uuid', { name: 'opened_by' })
  openedBy: string;

  @Column('integer')
  version: number;
}
