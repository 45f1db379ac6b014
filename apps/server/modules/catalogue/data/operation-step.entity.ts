import { Check, Column, Entity, ForeignKey, PrimaryColumn } from 'typeorm';

@Check(
  'operation_steps_at',
  `(at = ANY (ARRAY['chosen'::text, 'corner'::text, 'axle'::text, 'vehicle'::text]))`,
)
@ForeignKey('OperationRow', ['shopId', 'operationId'], ['shopId', 'id'], {
  name: 'operation_steps_operation',
})
@ForeignKey('StepRow', ['shopId', 'stepId'], ['shopId', 'id'], { name: 'operation_steps_step' })
@Entity('operation_steps')
export class OperationStepRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'operation_steps_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { name: 'operation_id', primaryKeyConstraintName: 'operation_steps_pkey' })
  operationId: string;

  @PrimaryColumn('uuid', { name: 'step_id', primaryKeyConstraintName: 'operation_steps_pkey' })
  stepId: string;

  @Column('text')
  at: string;

  @Column('integer')
  sequence: number;
}
