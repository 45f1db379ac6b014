import { Check, Column, Entity, Exclusion, ForeignKey, Index, PrimaryColumn } from 'typeorm';

@Check('clock_entries_correction', '((corrects_id IS NULL) = (correction_reason IS NULL))')
@Check(
  'clock_entries_end_kind',
  `(end_kind = ANY (ARRAY['off'::text, 'switch'::text, 'pause'::text, 'finish'::text, 'closed-by-manager'::text, 'corrected'::text]))`,
)
@Check('clock_entries_ended_whole', '((ended_at IS NULL) = (end_kind IS NULL))')
@Check(
  'clock_entries_indirect_kind',
  `(indirect_kind = ANY (ARRAY['cleaning'::text, 'training'::text, 'waiting'::text, 'parts-run'::text, 'road-test'::text, 'meeting'::text, 'other'::text]))`,
)
@Check('clock_entries_kind', `(kind = ANY (ARRAY['work'::text, 'indirect'::text]))`)
@Check(
  'clock_entries_on_one_thing',
  `(((kind = 'work'::text) = (work_order_id IS NOT NULL)) AND ((kind = 'indirect'::text) = (indirect_kind IS NOT NULL)))`,
)
@Check('clock_entries_order', '(started_at < ended_at)')
@Check(
  'clock_entries_pause_has_reason',
  `((end_kind <> ALL (ARRAY['pause'::text, 'closed-by-manager'::text])) OR (end_reason IS NOT NULL))`,
)
@ForeignKey('ClockEntryRow', ['shopId', 'correctsId'], ['shopId', 'id'], { name: 'clock_entries_corrects' })
@ForeignKey('StaffMemberRow', ['shopId', 'technicianId'], ['shopId', 'id'], {
  name: 'clock_entries_technician',
})
@ForeignKey('WorkOrderRow', ['shopId', 'workOrderId'], ['shopId', 'id'], { name: 'clock_entries_work_order' })
@Exclusion(
  'clock_entries_no_overlap',
  'USING gist (shop_id WITH =, technician_id WITH =, tstzrange(started_at, ended_at) WITH &&) WHERE ((superseded_at IS NULL))',
)
@Index('clock_entries_by_time', ['shopId', 'technicianId', 'startedAt'])
@Index('clock_entries_open', ['shopId'], { where: '((ended_at IS NULL) AND (superseded_at IS NULL))' })
@Index('clock_entries_of_work_order', ['shopId', 'workOrderId'])
@Entity('clock_entries')
export class ClockEntryRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'clock_entries_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'clock_entries_pkey' })
  id: string;

  @Column('uuid', { name: 'technician_id' })
  technicianId: string;

  @Column('text')
  kind: string;

  @Column('uuid', { name: 'work_order_id', nullable: true })
  workOrderId: string | null;

  @Column('text', { name: 'indirect_kind', nullable: true })
  indirectKind: string | null;

  @Column('timestamptz', { name: 'started_at' })
  startedAt: Date;

  @Column('timestamptz', { name: 'ended_at', nullable: true })
  endedAt: Date | null;

  @Column('text', { name: 'end_kind', nullable: true })
  endKind: string | null;

  @Column('text', { name: 'end_reason', nullable: true })
  endReason: string | null;

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
