import { Check, Column, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';

@Check('part_receipts_quantity', '(quantity_hundredths <> 0)')
@ForeignKey('LineItemRow', ['shopId', 'lineItemId'], ['shopId', 'id'], { name: 'part_receipts_line_item' })
@Index('part_receipts_of_line_item', ['shopId', 'lineItemId'])
@Entity('part_receipts')
export class PartReceiptRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'part_receipts_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'part_receipts_pkey' })
  id: string;

  @Column('uuid', { name: 'line_item_id' })
  lineItemId: string;

  @Column('integer', { name: 'quantity_hundredths' })
  quantityHundredths: number;

  @Column('timestamptz', { name: 'received_at' })
  receivedAt: Date;

  @Column('uuid', { name: 'received_by' })
  receivedBy: string;

  @Column('text', { nullable: true })
  note: string | null;
}
