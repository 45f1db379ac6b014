import { Column, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';

@ForeignKey('SessionRow', ['shopId', 'sessionId'], ['shopId', 'id'], { name: 'refresh_tokens_session' })
@Index('refresh_tokens_of_session', ['shopId', 'sessionId'])
@Entity('refresh_tokens')
export class RefreshTokenRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'refresh_tokens_pkey' })
  shopId: string;

  @PrimaryColumn('text', { name: 'token_hash', primaryKeyConstraintName: 'refresh_tokens_pkey' })
  tokenHash: string;

  @Column('uuid', { name: 'session_id' })
  sessionId: string;

  @Column('timestamptz', { name: 'issued_at' })
  issuedAt: Date;

  @Column('timestamptz', { name: 'expires_at' })
  expiresAt: Date;

  @Column('timestamptz', { name: 'used_at', nullable: true })
  usedAt: Date | null;
}
