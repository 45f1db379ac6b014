import { Check, Column, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';

@Check('audit_entries_actor_kind', `(actor_kind = ANY (ARRAY['staff'::text, 'owner'::text, 'system'::text]))`)
@ForeignKey('ShopRow', ['shopId'], ['shopId'], { name: 'audit_entries_shop' })
@Index('audit_entries_subject', ['shopId', 'subjectKind', 'subjectId'])
@Entity('audit_entries')
export class AuditEntryRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'audit_entries_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'audit_entries_pkey' })
  id: string;

  @Column('timestamptz')
  at: Date;

  @Column('text', { name: 'actor_kind' })
  actorKind: string;

  @Column('uuid', { name: 'actor_id', nullable: true })
  actorId: string | null;

  @Column('text')
  action: string;

  @Column('text', { name: 'subject_kind' })
  subjectKind: string;

  @Column('uuid', { name: 'subject_id' })
  subjectId: string;

  @Column('jsonb')
  detail: unknown;
}
