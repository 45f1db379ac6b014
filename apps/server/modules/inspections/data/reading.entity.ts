import { Column, Entity, ForeignKey, PrimaryColumn } from 'typeorm';

@ForeignKey('ObservationRow', ['shopId', 'observationId'], ['shopId', 'id'], { name: 'readings_observation' })
@Entity('readings')
export class ReadingRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'readings_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { name: 'observation_id', primaryKeyConstraintName: 'readings_pkey' })
  observationId: string;

  @PrimaryColumn('text', { primaryKeyConstraintName: 'readings_pkey' })
  name: string;

  @Column('numeric', { precision: 12, scale: 4 })
  value: string;

  @Column('text')
  unit: string;
}
