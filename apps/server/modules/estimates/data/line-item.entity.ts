import { Check, Column, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';

@Check('line_items_condition', `(condition = ANY (ARRAY['new'::text, 'used'::text, 'rebuilt'::text]))`)
@Check('line_items_kind', `(kind = ANY (ARRAY['part'::text, 'fluid'::text, 'sublet'::text, 'fee'::text]))`)
@Check('line_items_money', '((unit_price_cents >= 0) AND (unit_cost_cents >= 0) AND (core_cents >= 0))')
@Check(
  'line_items_part_says_condition',
  `((kind <> 'part'::text) OR ((condition IS NOT NULL) AND (source IS NOT NULL)))`,
)
@Check('line_items_price_basis', '((list_cents >= 0) AND (margin_ppm >= 0) AND (margin_ppm <= 999000))')
@Check(
  'line_items_price_rule',
  `(price_rule = ANY (ARRAY['entered'::text, 'list'::text, 'matrix'::text, 'margin'::text, 'sublet-markup'::text]))`,
)
@Check('line_items_quantity', '(quantity_hundredths > 0)')
@Check(
  'line_items_source',
  `(source = ANY (ARRAY['stock'::text, 'supplier'::text, 'used'::text, 'donor-vehicle'::text, 'customer-supplied'::text]))`,
)
@ForeignKey('LineRow', ['shopId', 'lineId'], ['shopId', 'id'], { name: 'line_items_line' })
@Index('line_items_of_line', ['shopId', 'lineId'])
@Entity('line_items')
export class LineItemRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'line_items_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'line_items_pkey' })
  id: string;

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

  @Column('text', { name: 'price_rule', default: 'entered' })
  priceRule: string;

  @Column('integer', { name: 'list_cents', nullable: true })
  listCents: number | null;

  /** The margin that was wanted, where the rule asks for one and the item says it. */
  @Column('integer', { name: 'margin_ppm', nullable: true })
  marginPpm: number | null;

  /** How the price came about when the line was saved, a `Breakdown`; null for what was entered before there were rules. */
  @Column('jsonb', { name: 'price_breakdown', nullable: true })
  priceBreakdown: object | null;

  @Column('integer', { name: 'core_cents' })
  coreCents: number;

  @Column('timestamptz', { name: 'expected_at', nullable: true })
  expectedAt: Date | null;
}
