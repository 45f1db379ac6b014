import { Check, Column, Entity, ForeignKey, PrimaryColumn } from 'typeorm';

@Check('line_steps_hours', '(hundredths > 0)')
@ForeignKey('LineRow', ['shopId', 'lineId'], ['shopId', 'id'], { name: 'line_steps_line' })
@ForeignKey('StepRow', ['shopId', 'stepId'], ['shopId', 'id'], { name: 'line_steps_step' })
@Entity('line_steps')
export class LineStepRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'line_steps_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { name: 'line_id', primaryKeyConstraintName: 'line_steps_pkey' })
  lineId: string;

  @PrimaryColumn('uuid', { name: 'step_id', primaryKeyConstraintName: 'line_steps_pkey' })
  stepId: string;

  @PrimaryColumn('text', { primaryKeyConstraintName: 'line_steps_pkey' })
  position: string;

  @Column('integer')
  hundredths: number;
}
