import { Column, Entity, ForeignKey, PrimaryColumn, Unique } from 'typeorm';

@ForeignKey('ShopRow', ['shopId'], ['shopId'], { name: 'inspection_templates_shop' })
@Unique('inspection_templates_edition_taken', ['shopId', 'name', 'edition'])
@Entity('inspection_templates')
export class InspectionTemplateRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'inspection_templates_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'inspection_templates_pkey' })
  id: string;

  @Column('text')
  name: string;

  @Column('integer')
  edition: number;

  @Column('boolean', { name: 'is_current' })
  isCurrent: boolean;

  @Column('timestamptz', { name: 'created_at' })
  createdAt: Date;
}
