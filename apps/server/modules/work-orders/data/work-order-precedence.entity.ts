import { Check, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';

@Check('work_order_precedences_not_itself', '(work_order_id <> earlier_id)')
@ForeignKey('WorkOrderRow', ['shopId', 'earlierId'], ['shopId', 'id'], {
  name: 'work_order_precedences_earlier',
})
@ForeignKey('WorkOrderRow', ['shopId', 'workOrderId'], ['shopId', 'id'], {
  name: 'work_order_precedences_work_order',
})
@Index('work_order_precedences_earlier_of', ['shopId', 'earlierId'])
@Entity('work_order_precedences')
export class WorkOrderPrecedenceRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'work_order_precedences_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { name: 'work_order_id', primaryKeyConstraintName: 'work_order_precedences_pkey' })
  workOrderId: string;

  @PrimaryColumn('uuid', { name: 'earlier_id', primaryKeyConstraintName: 'work_order_precedences_pkey' })
  earlierId: string;
}
