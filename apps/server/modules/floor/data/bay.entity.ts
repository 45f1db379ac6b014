import { Check, Column, Entity, ForeignKey, PrimaryColumn, Unique } from 'typeorm';

@Check('bays_capacity', '(capacity_kg > 0)')
@Check('bays_kind', `(kind = ANY (ARRAY['lift'::text, 'flat'::text, 'alignment'::text]))`)
@Check(
  'bays_lift',
  `(((kind = 'flat'::text) = (lift_kind IS NULL)) AND ((lift_kind IS NULL) = (capacity_kg IS NULL)))`,
)
@Check(
  'bays_lift_kind',
  `(lift_kind = ANY (ARRAY['two-post'::text, 'four-post'::text, 'scissor'::text, 'in-ground'::text]))`,
)
@ForeignKey('ShopRow', ['shopId'], ['shopId'], { name: 'bays_shop' })
@Unique('bays_number_taken', ['shopId', 'number'])
@Entity('bays')
export class BayRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'bays_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'bays_pkey' })
  id: string;

  @Column('integer')
  number: number;

  @Column('text')
  name: string;

  @Column('text')
  kind: string;

  @Column('text', { name: 'lift_kind', nullable: true })
  liftKind: string | null;

  @Column('integer', { name: 'capacity_kg', nullable: true })
  capacityKg: number | null;

  @Column('integer', { name: 'max_height_mm', nullable: true })
  maxHeightMm: number | null;

  @Column('date', { name: 'lift_inspected_on', nullable: true })
  liftInspectedOn: string | null;

  @Column('text', { name: 'out_of_service_reason', nullable: true })
  outOfServiceReason: string | null;

  @Column('boolean', { name: 'is_active' })
  isActive: boolean;

  @Column('integer')
  version: number;
}
