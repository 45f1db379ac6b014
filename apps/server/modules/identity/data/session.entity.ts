import { Check, Column, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';

@Check('sessions_end_reason', '((ended_at IS NULL) = (end_reason IS NULL))')
@Check('sessions_how', `(how = ANY (ARRAY['password'::text, 'pin'::text]))`)
@ForeignKey('DeviceRow', ['shopId', 'deviceId'], ['shopId', 'id'], { name: 'sessions_device' })
@ForeignKey('StaffMemberRow', ['shopId', 'staffId'], ['shopId', 'id'], { name: 'sessions_staff' })
@Index('sessions_of_staff', ['shopId', 'staffId'])
@Entity('sessions')
export class SessionRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'sessions_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'sessions_pkey' })
  id: string;

  @Column('uuid', { name: 'staff_id' })
  staffId: string;

  @Column('uuid', { name: 'device_id', nullable: true })
  deviceId: string | null;

  @Column('text')
  how: string;

  @Column('timestamptz', { name: 'started_at' })
  startedAt: Date;

  @Column('timestamptz', { name: 'expires_at' })
  expiresAt: Date;

  @Column('timestamptz', { name: 'ended_at', nullable: true })
  endedAt: Date | null;

  @Column('text', { name: 'end_reason', nullable: true })
  endReason: string | null;
}
