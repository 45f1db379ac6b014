import { Check, Column, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';

@Check('odometer_readings_not_negative', '((reading >= 0) AND (reading <= 3000000))')
@Check(
  'odometer_readings_occasion',
  `(occasion = ANY (ARRAY['drop-off'::text, 'pick-up'::text, 'other'::text]))`,
)
@Check('odometer_readings_unit', `(unit = ANY (ARRAY['km'::text, 'mi'::text]))`)
@ForeignKey('RepairOrderRow', ['shopId', 'vehicleId', 'repairOrderId'], ['shopId', 'vehicleId', 'id'], {
  name: 'odometer_readings_repair_order',
})
@ForeignKey('VehicleRow', ['shopId', 'vehicleId'], ['shopId', 'id'], { name: 'odometer_readings_vehicle' })
@Index('odometer_readings_of_vehicle', ['shopId', 'vehicleId', 'readAt'])
@Entity('odometer_readings')
export class OdometerReadingRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'odometer_readings_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'odometer_readings_pkey' })
  id: string;

  @Column('uuid', { name: 'vehicle_id' })
  vehicleId: string;

  @Column('integer')
  reading: number;

  @Column('text')
  unit: string;

  @Column('timestamptz', { name: 'read_at' })
  readAt: Date;

  @Column('text')
  occasion: string;

  @Column('uuid', { name: 'repair_order_id', nullable: true })
  repairOrderId: string | null;

  @Column('uuid', { name: 'recorded_by' })
  recordedBy: string;
}
