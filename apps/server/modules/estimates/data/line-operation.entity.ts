import { Column, Entity, ForeignKey, PrimaryColumn } from 'typeorm';

@ForeignKey('LineRow', ['shopId', 'lineId'], ['shopId', 'id'], { name: 'line_operations_line' })
@ForeignKey('OperationRow', ['shopId', 'operationId'], ['shopId', 'id'], {
  name: 'line_operations_operation',
})
@Entity('line_operations')
export class LineOperationRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'line_operations_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { name: 'line_id', primaryKeyConstraintName: 'line_operations_pkey' })
  lineId: string;

  @PrimaryColumn('uuid', { name: 'operation_id', primaryKeyConstraintName: 'line_operations_pkey' })
  operationId: string;

  @Column('text', { array: true })
  positions: string[];
}
