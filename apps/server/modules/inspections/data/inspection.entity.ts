import { Check, Column, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';

@Check('inspections_completed_whole', '((completed_at IS NULL) = (completed_by IS NULL))')
@ForeignKey('RepairOrderRow', ['shopId', 'repairOrderId'], ['shopId', 'id'], {
  name: 'inspections_repair_order',
})
@ForeignKey('StaffMemberRow', ['shopId', 'technicianId'], ['shopId', 'id'], {
  name: 'inspections_technician',
})
@ForeignKey('InspectionTemplateRow', ['shopId', 'templateId'], ['shopId', 'id'], {
  name: 'inspections_template',
})
@Index('inspections_of_repair_order', ['shopId', 'repairOrderId'])
@Entity('inspections')
export class InspectionRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'inspections_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'inspections_pkey' })
  id: string;

  @Column('uuid', { name: 'repair_order_id' })
  repairOrderId: string;

  @Column('uuid', { name: 'template_id' })
  templateId: string;

  @Column('uuid', { name: 'technician_id' })
  technicianId: string;

  @Column('timestamptz', { name: 'started_at' })
  startedAt: Date;

  @Column('timestamptz', { name: 'completed_at', nullable: true })
  completedAt: Date | null;

  @Column('uuid', { name: 'completed_by', nullable: true })
  completedBy: string | null;

  @Column('integer')
  version: number;
}
