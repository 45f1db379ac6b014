import { Check, Column, Entity, Exclusion, ForeignKey, PrimaryColumn } from 'typeorm';

@Check('tool_closures_ended', '((ended_at IS NULL) = (ended_by IS NULL))')
@Check('tool_closures_order', '(starts_at < ends_at)')
@Check('tool_closures_unit', '(unit > 0)')
@ForeignKey('SpecialToolRow', ['shopId', 'toolId'], ['shopId', 'id'], { name: 'tool_closures_tool' })
@ForeignKey('StaffMemberRow', ['shopId', 'recordedBy'], ['shopId', 'id'], {
  name: 'tool_closures_recorded_by',
})
@ForeignKey('StaffMemberRow', ['shopId', 'endedBy'], ['shopId', 'id'], { name: 'tool_closures_ended_by' })
@Exclusion(
  'tool_closures_no_overlap',
  'USING gist (shop_id WITH =, tool_id WITH =, unit WITH =, tstzrange(starts_at, LEAST(ends_at, ended_at)) WITH &&) WHERE (((ended_at IS NULL) OR (ended_at > starts_at)))',
)
@Entity('tool_closures')
export class ToolClosureRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'tool_closures_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'tool_closures_pkey' })
  id: string;

  @Column('uuid', { name: 'tool_id' })
  toolId: string;

  @Column('integer')
  unit: number;

  @Column('timestamptz', { name: 'starts_at' })
  startsAt: Date;

  /** What was expected; null while nobody knows. */
  @Column('timestamptz', { name: 'ends_at', nullable: true })
  endsAt: Date | null;

  @Column('text')
  reason: string;

  @Column('uuid', { name: 'recorded_by' })
  recordedBy: string;

  @Column('timestamptz', { name: 'recorded_at' })
  recordedAt: Date;

  @Column('uuid', { name: 'ended_by', nullable: true })
  endedBy: string | null;

  /** When it was put back into service before that. */
  @Column('timestamptz', { name: 'ended_at', nullable: true })
  endedAt: Date | null;

  @Column('integer')
  version: number;
}
