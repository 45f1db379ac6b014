import { Check, Column, Entity, ForeignKey, PrimaryColumn } from 'typeorm';

@Check('plan_settings_mode', `(mode = ANY (ARRAY['by-hand'::text, 'propose'::text, 'apply'::text]))`)
@Check('plan_settings_times', '((near_minutes >= 0) AND (frozen_minutes >= 0) AND (horizon_days >= 1))')
@Check(
  'plan_settings_weights',
  '((lateness >= 1) AND (start_moved >= 0) AND (hour_moved >= 0) AND (technician_changed >= 0) AND (bay_changed >= 0))',
)
@ForeignKey('ShopRow', ['shopId'], ['shopId'], { name: 'plan_settings_shop' })
@Entity('plan_settings')
export class PlanSettingsRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'plan_settings_pkey' })
  shopId: string;

  @Column('text')
  mode: string;

  @Column('integer')
  lateness: number;

  @Column('integer', { name: 'start_moved' })
  startMoved: number;

  @Column('integer', { name: 'hour_moved' })
  hourMoved: number;

  @Column('integer', { name: 'technician_changed' })
  technicianChanged: number;

  @Column('integer', { name: 'bay_changed' })
  bayChanged: number;

  @Column('integer', { name: 'near_minutes' })
  nearMinutes: number;

  @Column('integer', { name: 'frozen_minutes' })
  frozenMinutes: number;

  @Column('integer', { name: 'horizon_days' })
  horizonDays: number;

  @Column('integer')
  version: number;
}
