import { Entity, ForeignKey, PrimaryColumn } from 'typeorm';

@ForeignKey('SpecialToolRow', ['shopId', 'toolId'], ['shopId', 'id'], { name: 'work_order_tools_tool' })
@ForeignKey('WorkOrderRow', ['shopId', 'workOrderId'], ['shopId', 'id'], {
  name: 'work_order_tools_work_order',
})
@Entity('work_order_tools')
export class WorkOrderToolRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'work_order_tools_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { name: 'work_order_id', primaryKeyConstraintName: 'work_order_tools_pkey' })
  workOrderId: string;

  @PrimaryColumn('uuid', { name: 'tool_id', primaryKeyConstraintName: 'work_order_tools_pkey' })
  toolId: string;
}
