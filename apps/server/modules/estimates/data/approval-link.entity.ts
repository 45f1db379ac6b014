import { Check, Column, Entity, ForeignKey, Index, PrimaryColumn, Unique } from 'typeorm';

@Check('approval_links_revoked', '((revoked_at IS NULL) = (revoked_by IS NULL))')
@ForeignKey('RevisionRow', ['shopId', 'revisionId', 'repairOrderId'], ['shopId', 'id', 'repairOrderId'], {
  name: 'approval_links_revision',
})
@Unique('approval_links_to_revision', ['shopId', 'id', 'revisionId'])
@Unique('approval_links_token_taken', ['shopId', 'tokenHash'])
@Index('approval_links_of_revision', ['shopId', 'revisionId'])
@Entity('approval_links')
export class ApprovalLinkRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'approval_links_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'approval_links_pkey' })
  id: string;

  @Column('uuid', { name: 'repair_order_id' })
  repairOrderId: string;

  @Column('uuid', { name: 'revision_id' })
  revisionId: string;

  @Column('text', { name: 'token_hash' })
  tokenHash: string;

  @Column('uuid', { name: 'made_by' })
  madeBy: string;

  @Column('timestamptz', { name: 'made_at' })
  madeAt: Date;

  @Column('timestamptz', { name: 'expires_at' })
  expiresAt: Date;

  @Column('timestamptz', { name: 'revoked_at', nullable: true })
  revokedAt: Date | null;

  @Column('uuid', { name: 'revoked_by', nullable: true })
  revokedBy: string | null;

  @Column('timestamptz', { name: 'first_opened_at', nullable: true })
  firstOpenedAt: Date | null;
}
