import { Check, Column, Entity, ForeignKey, Index, PrimaryColumn, Unique } from 'typeorm';

@Check(
  'revisions_discount',
  '((discount_labour_ppm >= 0) AND (discount_labour_ppm <= 1000000) AND (discount_items_ppm >= 0) AND (discount_items_ppm <= 1000000) AND (discount_cents >= 0))',
)
@Check(
  'revisions_discount_has_reason',
  '((discount_reason IS NOT NULL) OR (num_nonnulls(discount_labour_ppm, discount_items_ppm, discount_cents) = 0))',
)
@Check(
  'revisions_discount_of_one_kind',
  '((discount_cents IS NULL) OR (num_nonnulls(discount_labour_ppm, discount_items_ppm) = 0))',
)
@Check(
  'revisions_sent_whole',
  '(((sent_at IS NULL) = (shown IS NULL)) AND ((sent_at IS NULL) = (shown_sha256 IS NULL)) AND ((sent_at IS NULL) = (total_cents IS NULL)) AND ((sent_at IS NULL) = (sent_by IS NULL)) AND ((sent_at IS NULL) = (valid_until IS NULL)))',
)
@ForeignKey('RepairOrderRow', ['shopId', 'repairOrderId'], ['shopId', 'id'], {
  name: 'revisions_repair_order',
})
@Unique('revisions_number_taken', ['shopId', 'repairOrderId', 'number'])
@Unique('revisions_of_repair_order', ['shopId', 'id', 'repairOrderId'])
@Index('revisions_one_draft', ['shopId', 'repairOrderId'], { unique: true, where: '(sent_at IS NULL)' })
@Entity('revisions')
export class RevisionRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'revisions_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'revisions_pkey' })
  id: string;

  @Column('uuid', { name: 'repair_order_id' })
  repairOrderId: string;

  @Column('integer')
  number: number;

  @Column('timestamptz', { name: 'sent_at', nullable: true })
  sentAt: Date | null;

  @Column('uuid', { name: 'sent_by', nullable: true })
  sentBy: string | null;

  @Column('timestamptz', { name: 'valid_until', nullable: true })
  validUntil: Date | null;

  @Column('jsonb', { nullable: true })
  shown: unknown;

  @Column('text', { name: 'shown_sha256', nullable: true })
  shownSha256: string | null;

  @Column('integer', { name: 'total_cents', nullable: true })
  totalCents: number | null;

  @Column('integer', { name: 'discount_labour_ppm', nullable: true })
  discountLabourPpm: number | null;

  @Column('integer', { name: 'discount_items_ppm', nullable: true })
  discountItemsPpm: number | null;

  @Column('integer', { name: 'discount_cents', nullable: true })
  discountCents: number | null;

  @Column('text', { name: 'discount_reason', nullable: true })
  discountReason: string | null;

  @Column('integer')
  version: number;
}
