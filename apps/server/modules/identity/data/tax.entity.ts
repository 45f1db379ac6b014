import { Check, Column, Entity, ForeignKey, PrimaryColumn, Unique } from 'typeorm';

@Check(
  'taxes_applies_to',
  `(applies_to <@ ARRAY['labour'::text, 'part'::text, 'fluid'::text, 'sublet'::text, 'fee'::text, 'supplies'::text])`,
)
@Check('taxes_not_negative', '(rate_ppm >= 0)')
@ForeignKey('ShopRow', ['shopId'], ['shopId'], { name: 'taxes_shop' })
@Unique('taxes_name_taken', ['shopId', 'name'])
@Entity('taxes')
export class TaxRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'taxes_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'taxes_pkey' })
  id: string;

  @Column('text')
  name: string;

  @Column('integer', { name: 'rate_ppm' })
  ratePpm: number;

  @Column('text', { name: 'applies_to', array: true })
  appliesTo: string[];

  @Column('integer', { default: 1 })
  version: number;
}
