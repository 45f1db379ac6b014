import { Check, Column, Entity, ForeignKey, Index, PrimaryColumn, Unique } from 'typeorm';

@Check(
  'decisions_adds_up',
  '(shown_total_cents = (((shown_labour_cents + shown_parts_cents) + shown_supplies_cents) + shown_tax_cents))',
)
@Check('decisions_answer', `(answer = ANY (ARRAY['approved'::text, 'declined'::text, 'deferred'::text]))`)
@Check(
  'decisions_by_link_or_staff',
  `(((channel = 'link'::text) = (link_id IS NOT NULL)) AND ((channel = 'link'::text) = (recorded_by IS NULL)))`,
)
@Check('decisions_channel', `(channel = ANY (ARRAY['link'::text, 'phone'::text, 'in-person'::text]))`)
@ForeignKey('LineRow', ['shopId', 'lineId', 'repairOrderId'], ['shopId', 'id', 'repairOrderId'], {
  name: 'decisions_line',
})
@ForeignKey('ApprovalLinkRow', ['shopId', 'linkId', 'revisionId'], ['shopId', 'id', 'revisionId'], {
  name: 'decisions_link',
})
@ForeignKey('RevisionRow', ['shopId', 'revisionId', 'repairOrderId'], ['shopId', 'id', 'repairOrderId'], {
  name: 'decisions_revision',
})
@Unique('decisions_as_answered', ['shopId', 'id', 'lineId', 'answer'])
@Unique('decisions_one_at_a_time', ['shopId', 'lineId', 'sequence'])
@Index('decisions_of_repair_order', ['shopId', 'repairOrderId'])
@Entity('decisions')
export class DecisionRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'decisions_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'decisions_pkey' })
  id: string;

  @Column('uuid', { name: 'repair_order_id' })
  repairOrderId: string;

  @Column('uuid', { name: 'revision_id' })
  revisionId: string;

  @Column('uuid', { name: 'line_id' })
  lineId: string;

  @Column('integer')
  sequence: number;

  @Column('text')
  answer: string;

  @Column('integer', { name: 'shown_hundredths' })
  shownHundredths: number;

  @Column('integer', { name: 'shown_labour_cents' })
  shownLabourCents: number;

  @Column('integer', { name: 'shown_parts_cents' })
  shownPartsCents: number;

  @Column('integer', { name: 'shown_supplies_cents' })
  shownSuppliesCents: number;

  @Column('integer', { name: 'shown_tax_cents' })
  shownTaxCents: number;

  @Column('integer', { name: 'shown_total_cents' })
  shownTotalCents: number;

  /** What was taken off; null for a decision from before there were discounts. */
  @Column('integer', { name: 'shown_discount_cents', nullable: true })
  shownDiscountCents: number | null;

  /** Its part of an amount off the order: the amount is given once over all decisions. */
  @Column('integer', { name: 'shown_order_discount_cents', nullable: true })
  shownOrderDiscountCents: number | null;

  /** What its supplies were a share of; null: its labour. */
  @Column('integer', { name: 'shown_supplies_base_cents', nullable: true })
  shownSuppliesBaseCents: number | null;

  /** Of an approved line: the steps it was sold, and how many lines carry each (`carriedSteps`). */
  @Column('jsonb', { name: 'shown_steps', nullable: true })
  shownSteps: unknown;

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

  @Column('date', { name: 'look_again_on', nullable: true })
  lookAgainOn: string | null;
}
