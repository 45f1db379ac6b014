import { Column, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';

@ForeignKey('ShopRow', ['shopId'], ['shopId'], { name: 'customers_shop' })
@Index('customers_recent', ['shopId', 'createdAt'])
@Index('customers_search', { synchronize: false })
@Entity('customers')
export class CustomerRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'customers_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'customers_pkey' })
  id: string;

  @Column('text', { name: 'display_name' })
  displayName: string;

  @Column('text', { nullable: true })
  phone: string | null;

  /** The number in international form, where what was typed could be one. */
  @Column('text', { name: 'phone_e164', nullable: true })
  phoneE164: string | null;

  @Column('text', { nullable: true })
  email: string | null;

  @Column('text', { nullable: true })
  address: string | null;

  @Column('text', { nullable: true })
  note: string | null;

  @Column('text', { name: 'search_text' })
  searchText: string;

  @Column('integer')
  version: number;

  @Column('timestamptz', { name: 'created_at' })
  createdAt: Date;
}
