import { Check, Column, Entity, ForeignKey, PrimaryColumn } from 'typeorm';

@Check('line_steps_hours', '(hundredths > 0)')
@Check(
  'line_steps_rate_whole',
  '(((rate_id IS NULL) = (rate_cents_per_hour IS NULL)) AND (rate_cents_per_hour >= 0))',
)
@ForeignKey('LabourRateRow', ['shopId', 'rateId'], ['shopId', 'id'], { name: 'line_steps_rate' })
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

  /** A rate of the step's own, as it was when the line was saved; null: the line's. */
  @Column('uuid', { name: 'rate_id', nullable: true })
  rateId: string | null;

  @Column('integer', { name: 'rate_cents_per_hour', nullable: true })
  rateCentsPerHour: number | null;
}
