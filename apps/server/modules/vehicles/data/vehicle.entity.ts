import { Check, Column, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';

@Check(
  'vehicles_drivetrain',
  `(drivetrain = ANY (ARRAY['combustion'::text, 'hybrid'::text, 'electric'::text]))`,
)
@Check('vehicles_height', '((height_mm >= 500) AND (height_mm <= 5000))')
@Check('vehicles_model_year', '((model_year >= 1885) AND (model_year <= 2100))')
@Check('vehicles_value', '(value_cents >= 0)')
@Check(
  'vehicles_vin_verdict',
  `(vin_verdict = ANY (ARRAY['valid'::text, 'accept-unchecked'::text, 'accept-warn'::text, 'reject'::text]))`,
)
@Check('vehicles_weight', '((weight_kg >= 100) AND (weight_kg <= 60000))')
@ForeignKey('CustomerRow', ['shopId', 'customerId'], ['shopId', 'id'], { name: 'vehicles_customer' })
@Index('vehicles_of_customer', ['shopId', 'customerId'])
@Index('vehicles_search', { synchronize: false })
@Index('vehicles_vin_taken', ['shopId', 'vin'], { unique: true, where: '(vin IS NOT NULL)' })
@Entity('vehicles')
export class VehicleRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'vehicles_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'vehicles_pkey' })
  id: string;

  @Column('uuid', { name: 'customer_id' })
  customerId: string;

  @Column('text', { nullable: true })
  plate: string | null;

  @Column('text', { nullable: true })
  vin: string | null;

  @Column('text', { name: 'vin_verdict', nullable: true })
  vinVerdict: string | null;

  @Column('text')
  make: string;

  @Column('text')
  model: string;

  @Column('integer', { name: 'model_year', nullable: true })
  modelYear: number | null;

  @Column('text', { nullable: true })
  colour: string | null;

  @Column('text')
  drivetrain: string;

  @Column('integer', { name: 'weight_kg', nullable: true })
  weightKg: number | null;

  @Column('integer', { name: 'height_mm', nullable: true })
  heightMm: number | null;

  @Column('integer', { name: 'value_cents', nullable: true })
  valueCents: number | null;

  @Column('text', { nullable: true })
  note: string | null;

  @Column('text', { name: 'search_text' })
  searchText: string;

  @Column('integer')
  version: number;

  @Column('timestamptz', { name: 'created_at' })
  createdAt: Date;
}
