import { Entity, ForeignKey, PrimaryColumn } from 'typeorm';

@ForeignKey('ReservationOperationRow', ['shopId', 'reservationOperationId'], ['shopId', 'id'], {
  name: 'reservation_operation_tools_operation',
})
@ForeignKey('SpecialToolRow', ['shopId', 'toolId'], ['shopId', 'id'], {
  name: 'reservation_operation_tools_tool',
})
@Entity('reservation_operation_tools')
export class ReservationOperationToolRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'reservation_operation_tools_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', {
    name: 'reservation_operation_id',
    primaryKeyConstraintName: 'reservation_operation_tools_pkey',
  })
  reservationOperationId: string;

  @PrimaryColumn('uuid', { name: 'tool_id', primaryKeyConstraintName: 'reservation_operation_tools_pkey' })
  toolId: string;
}
