import { Column, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';

@ForeignKey('StaffMemberRow', ['shopId', 'technicianId'], ['shopId', 'id'], { name: 'claims_technician' })
@ForeignKey('WorkOrderRow', ['shopId', 'workOrderId'], ['shopId', 'id'], { name: 'claims_work_order' })
@Index('claims_one_holder', ['shopId', 'workOrderId'], { unique: true, where: '(released_at IS NULL)' })
@Index('claims_of_technician', ['shopId', 'technicianId'], { where: '(released_at IS NULL)' })
@Entity('claims')
export class ClaimRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'claims_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'claims_pkey' })
  id: string;

  @Column('uuid', { name: 'work_order_id' })
  workOrderId: string;

  @Column('uuid', { name: 'technician_id' })
  technicianId: string;

  @Column('timestamptz', { name: 'claimed_at' })
  claimedAt: Date;

  @Column('timestamptz', { name: 'released_at', nullable: true })
  releasedAt: Date | null;

  @Column('text', { name: 'release_reason', nullable: true })
  releaseReason: string | null;
}
