import { Column, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';

@ForeignKey('CustomerRow', ['shopId', 'customerId'], ['shopId', 'id'], { name: 'ownerships_customer' })
@ForeignKey('VehicleRow', ['shopId', 'vehicleId'], ['shopId', 'id'], { name: 'ownerships_vehicle' })
@Index('ownerships_of_vehicle', ['shopId', 'vehicleId', 'since'])
@Entity('ownerships')
export class OwnershipRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'ownerships_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'ownerships_pkey' })
  id: string;

  @Column('uuid', { name: 'vehicle_id' })
  vehicleId: string;

  @Column('uuid', { name: 'customer_id' })
  customerId: string;

  @Column('timestamptz')
  since: Date;

  @Column('uuid', { name: 'recorded_by' })
  recordedBy: string;
}
