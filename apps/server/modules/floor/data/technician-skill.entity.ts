import { Column, Entity, ForeignKey, PrimaryColumn } from 'typeorm';

@ForeignKey('StaffMemberRow', ['shopId', 'technicianId'], ['shopId', 'id'], {
  name: 'technician_skills_staff',
})
@Entity('technician_skills')
export class TechnicianSkillRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'technician_skills_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { name: 'technician_id', primaryKeyConstraintName: 'technician_skills_pkey' })
  technicianId: string;

  @PrimaryColumn('text', { primaryKeyConstraintName: 'technician_skills_pkey' })
  skill: string;

  @Column('text', { nullable: true })
  certificate: string | null;

  @Column('date', { name: 'valid_until', nullable: true })
  validUntil: string | null;
}
