import { Column, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';

@ForeignKey('ShopRow', ['shopId'], ['shopId'], { name: 'idempotency_keys_shop' })
@Index('idempotency_keys_oldest', ['shopId', 'createdAt'])
@Entity('idempotency_keys')
export class IdempotencyKeyRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'idempotency_keys_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { name: 'actor_id', primaryKeyConstraintName: 'idempotency_keys_pkey' })
  actorId: string;

  @PrimaryColumn('text', { primaryKeyConstraintName: 'idempotency_keys_pkey' })
  key: string;

  @Column('text')
  fingerprint: string;

  @Column('integer')
  status: number;

  @Column('jsonb')
  body: unknown;

  @Column('timestamptz', { name: 'created_at' })
  createdAt: Date;
}
