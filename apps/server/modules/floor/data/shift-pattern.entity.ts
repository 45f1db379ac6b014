import { Check, Column, Entity, ForeignKey, PrimaryColumn, Unique } from 'typeorm';

@Check(
  'shift_patterns_break',
  '(((break_from_minute IS NULL) AND (break_to_minute IS NULL)) OR ((from_minute <= break_from_minute) AND (break_from_minute < break_to_minute) AND (break_to_minute <= to_minute)))',
)
@Check('shift_patterns_order', '((0 <= from_minute) AND (from_minute < to_minute) AND (to_minute <= 1440))')
@Check('shift_patterns_weekday', '((weekday >= 1) AND (weekday <= 7))')
@ForeignKey('StaffMemberRow', ['shopId', 'technicianId'], ['shopId', 'id'], { name: 'shift_patterns_staff' })
@Unique('shift_patterns_one_a_day', ['shopId', 'technicianId', 'weekday'])
@Entity('shift_patterns')
export class ShiftPatternRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'shift_patterns_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'shift_patterns_pkey' })
  id: string;

  @Column('uuid', { name: 'technician_id' })
  technicianId: string;

  @Column('integer')
  weekday: number;

  @Column('integer', { name: 'from_minute' })
  fromMinute: number;

  @Column('integer', { name: 'to_minute' })
  toMinute: number;

  @Column('integer', { name: 'break_from_minute', nullable: true })
  breakFromMinute: number | null;

  @Column('integer', { name: 'break_to_minute', nullable: true })
  breakToMinute: number | null;
}
