import { Check, Column, Entity, ForeignKey, Index, PrimaryColumn, Unique } from 'typeorm';

@Check(
  'lines_discount',
  '((discount_labour_ppm >= 0) AND (discount_labour_ppm <= 1000000) AND (discount_items_ppm >= 0) AND (discount_items_ppm <= 1000000) AND (discount_items_cents >= 0))',
)
@Check(
  'lines_discount_has_reason',
  '((discount_reason IS NOT NULL) OR (num_nonnulls(discount_labour_ppm, discount_items_ppm, discount_items_cents) = 0))',
)
@Check('lines_entered_hours', '(entered_hundredths >= 0)')
@Check('lines_entered_source', '((entered_hundredths IS NULL) OR (entered_source IS NOT NULL))')
@Check('lines_no_charge', `(no_charge = ANY (ARRAY['warranty'::text, 'goodwill'::text, 'comeback'::text]))`)
@Check('lines_rate_not_negative', '(rate_cents_per_hour >= 0)')
@Check(
  'lines_spread_rises',
  '((0 <= low_hundredths) AND (low_hundredths <= high_hundredths) AND (0 <= low_items_cents) AND (low_items_cents <= high_items_cents))',
)
@Check(
  'lines_spread_whole',
  '(num_nonnulls(low_hundredths, high_hundredths, low_items_cents, high_items_cents) = ANY (ARRAY[0, 4]))',
)
@Check(
  'lines_stake',
  `(stake = ANY (ARRAY['none'::text, 'comfort'::text, 'dearer-later'::text, 'stranded'::text, 'harm'::text]))`,
)
@ForeignKey('LabourRateRow', ['shopId', 'rateId'], ['shopId', 'id'], { name: 'lines_rate' })
@ForeignKey('RepairOrderRow', ['shopId', 'repairOrderId'], ['shopId', 'id'], { name: 'lines_repair_order' })
@ForeignKey('RevisionRow', ['shopId', 'revisionId', 'repairOrderId'], ['shopId', 'id', 'repairOrderId'], {
  name: 'lines_revision',
})
@Unique('lines_in_repair_order', ['shopId', 'id', 'repairOrderId'])
@Unique('lines_in_revision', ['shopId', 'id', 'revisionId'])
@Unique('lines_sequence_taken', ['shopId', 'revisionId', 'sequence'])
@Index('lines_of_repair_order', ['shopId', 'repairOrderId'])
@Entity('lines')
export class LineRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'lines_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'lines_pkey' })
  id: string;

  @Column('uuid', { name: 'repair_order_id' })
  repairOrderId: string;

  @Column('uuid', { name: 'revision_id' })
  revisionId: string;

  @Column('integer')
  sequence: number;

  @Column('text')
  title: string;

  @Column('text', { nullable: true })
  explanation: string | null;

  @Column('text', { nullable: true })
  consequence: string | null;

  @Column('text', { nullable: true })
  stake: string | null;

  @Column('uuid', { name: 'rate_id' })
  rateId: string;

  @Column('integer', { name: 'rate_cents_per_hour' })
  rateCentsPerHour: number;

  @Column('text', { name: 'no_charge', nullable: true })
  noCharge: string | null;

  @Column('integer', { name: 'discount_labour_ppm', nullable: true })
  discountLabourPpm: number | null;

  @Column('integer', { name: 'discount_items_ppm', nullable: true })
  discountItemsPpm: number | null;

  @Column('integer', { name: 'discount_items_cents', nullable: true })
  discountItemsCents: number | null;

  @Column('text', { name: 'discount_reason', nullable: true })
  discountReason: string | null;

  /** At least and at most, where the line is not sure; all four or none. */
  @Column('integer', { name: 'low_hundredths', nullable: true })
  lowHundredths: number | null;

  @Column('integer', { name: 'high_hundredths', nullable: true })
  highHundredths: number | null;

  @Column('integer', { name: 'low_items_cents', nullable: true })
  lowItemsCents: number | null;

  @Column('integer', { name: 'high_items_cents', nullable: true })
  highItemsCents: number | null;

  @Column('integer', { name: 'entered_hundredths', nullable: true })
  enteredHundredths: number | null;

  @Column('text', { name: 'entered_source', nullable: true })
  enteredSource: string | null;
}
