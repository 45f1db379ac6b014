import { Entity, ForeignKey, PrimaryColumn } from 'typeorm';

@ForeignKey('OperationRow', ['shopId', 'operationId'], ['shopId', 'id'], {
  name: 'operation_tools_operation',
})
@ForeignKey('SpecialToolRow', ['shopId', 'toolId'], ['shopId', 'id'], { name: 'operation_tools_tool' })
@Entity('operation_tools')
export class OperationToolRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'operation_tools_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { name: 'operation_id', primaryKeyConstraintName: 'operation_tools_pkey' })
  operationId: string;

  @PrimaryColumn('uuid', { name: 'tool_id', primaryKeyConstraintName: 'operation_tools_pkey' })
  toolId: string;
}
