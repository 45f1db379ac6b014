import { Column, Entity, ForeignKey, PrimaryColumn, Unique } from 'typeorm';

@ForeignKey('BayRow', ['shopId', 'bayId'], ['shopId', 'id'], { name: 'devices_bay' })
@ForeignKey('StaffMemberRow', ['shopId', 'enrolledBy'], ['shopId', 'id'], { name: 'devices_enrolled_by' })
@Unique('devices_token_taken', ['shopId', 'tokenHash'])
@Entity('devices')
export class DeviceRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'devices_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'devices_pkey' })
  id: string;

  @Column('text')
  name: string;

  @Column('uuid', { name: 'bay_id', nullable: true })
  bayId: string | null;

  @Column('text', { name: 'token_hash' })
  tokenHash: string;

  @Column('uuid', { name: 'enrolled_by' })
  enrolledBy: string;

  @Column('timestamptz', { name: 'enrolled_at' })
  enrolledAt: Date;

  @Column('timestamptz', { name: 'revoked_at', nullable: true })
  revokedAt: Date | null;
}
