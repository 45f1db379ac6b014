import { Check, Column, Entity, ForeignKey, PrimaryColumn, Unique } from 'typeorm';

@Check('operations_bay_kinds', `(bay_kinds <@ ARRAY['lift'::text, 'flat'::text, 'alignment'::text])`)
@ForeignKey('ShopRow', ['shopId'], ['shopId'], { name: 'operations_shop' })
@Unique('operations_code_taken', ['shopId', 'code'])
@Entity('operations')
export class OperationRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'operations_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'operations_pkey' })
  id: string;

  @Column('text')
  code: string;

  @Column('text')
  name: string;

  @Column('boolean', { name: 'needs_lift' })
  needsLift: boolean;

  @Column('text', { name: 'bay_kinds', array: true })
  bayKinds: string[];

  @Column('text', { array: true })
  skills: string[];

  @Column('text', { array: true })
  cautions: string[];

  @Column('boolean', { name: 'is_active' })
  isActive: boolean;

  @Column('integer')
  version: number;
}
