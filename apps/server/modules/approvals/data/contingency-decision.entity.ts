import { Check, Column, Entity, ForeignKey, Index, PrimaryColumn, Unique } from 'typeorm';

/** What the owner said to a contingency; only ever added. */
@Check('contingency_decisions_because', `(because = ANY (ARRAY['answered'::text, 'line-given-up'::text]))`)
@Check(
  'contingency_decisions_by_link_or_staff',
  `(((channel = 'link'::text) = (link_id IS NOT NULL)) AND ((channel = 'link'::text) = (recorded_by IS NULL)))`,
)
@Check(
  'contingency_decisions_channel',
  `(channel = ANY (ARRAY['link'::text, 'phone'::text, 'in-person'::text]))`,
)
@ForeignKey(
  'ContingencyRow',
  ['shopId', 'contingencyId', 'lineId', 'capCents'],
  ['shopId', 'id', 'lineId', 'capCents'],
  { name: 'contingency_decisions_contingency' },
)
@ForeignKey('LineRow', ['shopId', 'lineId', 'repairOrderId'], ['shopId', 'id', 'repairOrderId'], {
  name: 'contingency_decisions_line',
})
@ForeignKey('RevisionRow', ['shopId', 'revisionId', 'repairOrderId'], ['shopId', 'id', 'repairOrderId'], {
  name: 'contingency_decisions_revision',
})
@ForeignKey('ApprovalLinkRow', ['shopId', 'linkId', 'revisionId'], ['shopId', 'id', 'revisionId'], {
  name: 'contingency_decisions_link',
})
@Unique('contingency_decisions_as_answered', ['shopId', 'id', 'contingencyId', 'capCents', 'agreed'])
@Unique('contingency_decisions_one_at_a_time', ['shopId', 'contingencyId', 'sequence'])
@Index('contingency_decisions_of_repair_order', ['shopId', 'repairOrderId'])
@Entity('contingency_decisions')
export class ContingencyDecisionRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'contingency_decisions_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'contingency_decisions_pkey' })
  id: string;

  @Column('uuid', { name: 'repair_order_id' })
  repairOrderId: string;

  @Column('uuid', { name: 'revision_id' })
  revisionId: string;

  @Column('uuid', { name: 'line_id' })
  lineId: string;

  @Column('uuid', { name: 'contingency_id' })
  contingencyId: string;

  @Column('integer')
  sequence: number;

  @Column('boolean')
  agreed: boolean;

  @Column('integer', { name: 'cap_cents' })
  capCents: number;

  @Column('text')
  because: string;

  @Column('text', { name: 'shown_sha256' })
  shownSha256: string;

  @Column('timestamptz', { name: 'decided_at' })
  decidedAt: Date;

  @Column('text')
  channel: string;

  @Column('uuid', { name: 'link_id', nullable: true })
  linkId: string | null;

  @Column('text', { name: 'decided_by' })
  decidedBy: string;

  @Column('uuid', { name: 'recorded_by', nullable: true })
  recordedBy: string | null;

  @Column('jsonb')
  evidence: unknown;
}
