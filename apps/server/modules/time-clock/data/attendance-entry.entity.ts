import { Check, Column, Entity, Exclusion, ForeignKey, PrimaryColumn } from 'typeorm';

@Check('attendance_entries_correction', '((corrects_id IS NULL) = (correction_reason IS NULL))')
@Check('attendance_entries_order', '(started_at < ended_at)')
@ForeignKey('AttendanceEntryRow', ['shopId', 'correctsId'], ['shopId', 'id'], {
  name: 'attendance_entries_corrects',
})
@ForeignKey('StaffMemberRow', ['shopId', 'technicianId'], ['shopId', 'id'], {
  name: 'attendance_entries_technician',
})
@Exclusion(
  'attendance_entries_no_overlap',
  'USING gist (shop_id WITH =, technician_id WITH =, tstzrange(started_at, ended_at) WITH &&) WHERE ((superseded_at IS NULL))',
)
@Entity('attendance_entries')
export class AttendanceEntryRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'attendance_entries_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'attendance_entries_pkey' })
  id: string;

  @Column('uuid', { name: 'technician_id' })
  technicianId: string;

  @Column('timestamptz', { name: 'started_at' })
  startedAt: Date;

  @Column('timestamptz', { name: 'ended_at', nullable: true })
  endedAt: Date | null;

  @Column('uuid', { name: 'ended_by', nullable: true })
  endedBy: string | null;

  @Column('uuid', { name: 'corrects_id', nullable: true })
  correctsId: string | null;

  @Column('timestamptz', { name: 'superseded_at', nullable: true })
  supersededAt: Date | null;

  @Column('text', { name: 'correction_reason', nullable: true })
  correctionReason: string | null;

  @Column('uuid', { name: 'recorded_by' })
  recordedBy: string;
}
