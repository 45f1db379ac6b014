import { Check, Column, Entity, Exclusion, ForeignKey, PrimaryColumn } from 'typeorm';

@Check('absences_order', '(starts_at < ends_at)')
@ForeignKey('StaffMemberRow', ['shopId', 'technicianId'], ['shopId', 'id'], { name: 'absences_technician' })
@ForeignKey('StaffMemberRow', ['shopId', 'recordedBy'], ['shopId', 'id'], { name: 'absences_recorded_by' })
@Exclusion(
  'absences_no_overlap',
  'USING gist (shop_id WITH =, technician_id WITH =, tstzrange(starts_at, ends_at) WITH &&) WHERE ((withdrawn_at IS NULL))',
)
@Entity('absences')
export class AbsenceRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'absences_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'absences_pkey' })
  id: string;

  @Column('uuid', { name: 'technician_id' })
  technicianId: string;

  @Column('timestamptz', { name: 'starts_at' })
  startsAt: Date;

  @Column('timestamptz', { name: 'ends_at' })
  endsAt: Date;

  @Column('text', { nullable: true })
  reason: string | null;

  @Column('uuid', { name: 'recorded_by' })
  recordedBy: string;

  @Column('timestamptz', { name: 'recorded_at' })
  recordedAt: Date;

  @Column('timestamptz', { name: 'withdrawn_at', nullable: true })
  withdrawnAt: Date | null;

  @Column('integer')
  version: number;
}
