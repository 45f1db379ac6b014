import { Check, Column, Entity, ForeignKey, Index, PrimaryColumn, Unique } from 'typeorm';

@Check('staff_email_lower', '(email = lower(email))')
@Check(
  'staff_roles',
  `((roles <@ ARRAY['front-desk'::text, 'technician'::text, 'manager'::text, 'administrator'::text]) AND (cardinality(roles) > 0))`,
)
@ForeignKey('ShopRow', ['shopId'], ['shopId'], { name: 'staff_shop' })
@Unique('staff_email_taken', ['shopId', 'email'])
@Index('staff_email', ['email'])
@Entity('staff')
export class StaffMemberRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'staff_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'staff_pkey' })
  id: string;

  @Column('text', { name: 'display_name' })
  displayName: string;

  @Column('text', { nullable: true })
  email: string | null;

  @Column('text', { array: true })
  roles: string[];

  @Column('text', { name: 'password_hash', nullable: true })
  passwordHash: string | null;

  @Column('text', { name: 'pin_hash', nullable: true })
  pinHash: string | null;

  @Column('boolean', { name: 'is_active' })
  isActive: boolean;

  @Column('integer', { name: 'failed_sign_ins' })
  failedSignIns: number;

  @Column('timestamptz', { name: 'locked_until', nullable: true })
  lockedUntil: Date | null;

  @Column('integer', { name: 'failed_pins', default: 0 })
  failedPins: number;

  @Column('timestamptz', { name: 'pin_locked_until', nullable: true })
  pinLockedUntil: Date | null;

  @Column('integer')
  version: number;

  @Column('timestamptz', { name: 'created_at' })
  createdAt: Date;
}
