import { Column, Entity, ForeignKey, PrimaryColumn } from 'typeorm';

@ForeignKey('OperationRow', ['shopId', 'operationId'], ['shopId', 'id'], {
  name: 'package_operations_operation',
})
@ForeignKey('PackageRow', ['shopId', 'packageId'], ['shopId', 'id'], { name: 'package_operations_package' })
@Entity('package_operations')
export class PackageOperationRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'package_operations_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { name: 'package_id', primaryKeyConstraintName: 'package_operations_pkey' })
  packageId: string;

  @PrimaryColumn('uuid', { name: 'operation_id', primaryKeyConstraintName: 'package_operations_pkey' })
  operationId: string;

  @Column('text', { array: true })
  positions: string[];

  @Column('integer')
  sequence: number;
}
