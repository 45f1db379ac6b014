import { Column, Entity, ForeignKey, PrimaryColumn, PrimaryGeneratedColumn } from 'typeorm';

@ForeignKey('ShopRow', ['shopId'], ['shopId'], { name: 'live_events_shop' })
@Entity('live_events')
export class LiveEventRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'live_events_pkey' })
  shopId: string;

  @PrimaryGeneratedColumn('identity', {
    type: 'bigint',
    generatedIdentity: 'BY DEFAULT',
    primaryKeyConstraintName: 'live_events_pkey',
  })
  id: string;

  @Column('timestamptz')
  at: Date;

  @Column('text')
  kind: string;

  @Column('jsonb')
  subjects: unknown;
}
