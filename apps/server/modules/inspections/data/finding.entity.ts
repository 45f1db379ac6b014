import { Check, Column, Entity, ForeignKey, Index, PrimaryColumn, Unique } from 'typeorm';

@Check('findings_may_drive', `(may_drive = ANY (ARRAY['yes'::text, 'to-the-shop-only'::text, 'no'::text]))`)
@Check(
  'findings_stake',
  `(stake = ANY (ARRAY['none'::text, 'comfort'::text, 'dearer-later'::text, 'stranded'::text, 'harm'::text]))`,
)
@Check('findings_verdict', `(verdict = ANY (ARRAY['watch'::text, 'repair'::text]))`)
@ForeignKey('ObservationRow', ['shopId', 'observationId'], ['shopId', 'id'], { name: 'findings_observation' })
@ForeignKey('RepairOrderRow', ['shopId', 'repairOrderId'], ['shopId', 'id'], {
  name: 'findings_repair_order',
})
@ForeignKey('RepairOrderRow', ['shopId', 'vehicleId', 'repairOrderId'], ['shopId', 'vehicleId', 'id'], {
  name: 'findings_vehicle',
})
@ForeignKey('WorkOrderRow', ['shopId', 'workOrderId', 'repairOrderId'], ['shopId', 'id', 'repairOrderId'], {
  name: 'findings_work_order',
})
@Unique('findings_one_an_observation', ['shopId', 'observationId'])
@Index('findings_of_repair_order', ['shopId', 'repairOrderId'])
@Index('findings_of_vehicle', ['shopId', 'vehicleId'])
@Entity('findings')
export class FindingRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'findings_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'findings_pkey' })
  id: string;

  @Column('uuid', { name: 'repair_order_id' })
  repairOrderId: string;

  @Column('uuid', { name: 'vehicle_id' })
  vehicleId: string;

  @Column('uuid', { name: 'observation_id', nullable: true })
  observationId: string | null;

  @Column('uuid', { name: 'work_order_id', nullable: true })
  workOrderId: string | null;

  @Column('text')
  title: string;

  @Column('text')
  verdict: string;

  @Column('text', { name: 'may_drive' })
  mayDrive: string;

  @Column('text', { nullable: true })
  explanation: string | null;

  @Column('text', { nullable: true })
  consequence: string | null;

  @Column('text', { nullable: true })
  stake: string | null;

  @Column('date', { name: 'look_again_on', nullable: true })
  lookAgainOn: string | null;

  @Column('integer', { name: 'look_again_odometer', nullable: true })
  lookAgainOdometer: number | null;

  @Column('uuid', { name: 'found_by' })
  foundBy: string;

  @Column('timestamptz', { name: 'found_at' })
  foundAt: Date;

  @Column('timestamptz', { name: 'withdrawn_at', nullable: true })
  withdrawnAt: Date | null;

  @Column('integer')
  version: number;
}
