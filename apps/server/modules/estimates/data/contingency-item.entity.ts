import { Check, Column, Entity, ForeignKey, PrimaryColumn, Unique } from 'typeorm';

@Check('contingency_items_condition', `(condition = ANY (ARRAY['new'::text, 'used'::text, 'rebuilt'::text]))`)
@Check(
  'contingency_items_kind',
  `(kind = ANY (ARRAY['part'::text, 'fluid'::text, 'sublet'::text, 'fee'::text]))`,
)
@Check(
  'contingency_items_money',
  '((unit_price_cents >= 0) AND (unit_cost_cents >= 0) AND (core_cents >= 0))',
)
@Check(
  'contingency_items_part_says_condition',
  `((kind <> 'part'::text) OR ((condition IS NOT NULL) AND (source IS NOT NULL)))`,
)
@Check('contingency_items_quantity', '(quantity_hundredths > 0)')
@Check(
  'contingency_items_source',
  `(source = ANY (ARRAY['stock'::text, 'supplier'::text, 'used'::text, 'donor-vehicle'::text, 'customer-supplied'::text]))`,
)
@ForeignKey('ContingencyRow', ['shopId', 'contingencyId', 'lineId'], ['shopId', 'id', 'lineId'], {
  name: 'contingency_items_contingency',
})
@Unique('contingency_items_sequence_taken', ['shopId', 'contingencyId', 'sequence'])
@Entity('contingency_items')
export class ContingencyItemRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'contingency_items_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'contingency_items_pkey' })
  id: string;

  @Column('uuid', { name: 'contingency_id' })
  contingencyId: string;

  @Column('uuid', { name: 'line_id' })
  lineId: string;

  @Column('integer')
  sequence: number;

  @Column('text')
  kind: string;

  @Column('text')
  name: string;

  @Column('text', { name: 'part_number', nullable: true })
  partNumber: string | null;

  @Column('text', { nullable: true })
  condition: string | null;

  @Column('text', { nullable: true })
  source: string | null;

  @Column('integer', { name: 'quantity_hundredths' })
  quantityHundredths: number;

  @Column('integer', { name: 'unit_price_cents' })
  unitPriceCents: number;

  @Column('integer', { name: 'unit_cost_cents', nullable: true })
  unitCostCents: number | null;

  @Column('integer', { name: 'core_cents' })
  coreCents: number;
}
