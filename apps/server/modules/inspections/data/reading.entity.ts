import { Check, Column, Entity, ForeignKey, PrimaryColumn } from 'typeorm';

@Check('readings_value', `(value ~ '^-?[0-9]{1,8}([.][0-9]{1,4})?$'::text)`)
@ForeignKey('ObservationRow', ['shopId', 'observationId'], ['shopId', 'id'], { name: 'readings_observation' })
@Entity('readings')
export class ReadingRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'readings_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { name: 'observation_id', primaryKeyConstraintName: 'readings_pkey' })
  observationId: string;

  @PrimaryColumn('text', { primaryKeyConstraintName: 'readings_pkey' })
  name: string;

  @Column('integer')
  sequence: number;

  @Column('text')
  value: string;

  @Column('text')
  unit: string;
}
