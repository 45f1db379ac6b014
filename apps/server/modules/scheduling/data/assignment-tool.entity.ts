import { Check, Column, Entity, Exclusion, ForeignKey, PrimaryColumn } from 'typeorm';

@Check('assignment_tools_order', '(starts_at < ends_at)')
@ForeignKey('AssignmentRow', ['shopId', 'assignmentId'], ['shopId', 'id'], {
  name: 'assignment_tools_assignment',
})
@ForeignKey('SpecialToolRow', ['shopId', 'toolId'], ['shopId', 'id'], { name: 'assignment_tools_tool' })
@Exclusion(
  'assignment_tools_no_overlap',
  'USING gist (shop_id WITH =, tool_id WITH =, unit WITH =, tstzrange(starts_at, ends_at) WITH &&) WHERE ((cancelled_at IS NULL))',
)
@Entity('assignment_tools')
export class AssignmentToolRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'assignment_tools_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { name: 'assignment_id', primaryKeyConstraintName: 'assignment_tools_pkey' })
  assignmentId: string;

  @PrimaryColumn('uuid', { name: 'tool_id', primaryKeyConstraintName: 'assignment_tools_pkey' })
  toolId: string;

  @Column('integer')
  unit: number;

  @Column('timestamptz', { name: 'starts_at' })
  startsAt: Date;

  @Column('timestamptz', { name: 'ends_at' })
  endsAt: Date;

  @Column('timestamptz', { name: 'cancelled_at', nullable: true })
  cancelledAt: Date | null;
}
