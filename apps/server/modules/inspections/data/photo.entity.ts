import { Check, Column, Entity, ForeignKey, PrimaryColumn, Unique } from 'typeorm';

@Check('photos_of_one_thing', '(num_nonnulls(observation_id, finding_id, contingency_id) = 1)')
@ForeignKey('ContingencyRow', ['shopId', 'contingencyId'], ['shopId', 'id'], { name: 'photos_contingency' })
@ForeignKey('FindingRow', ['shopId', 'findingId'], ['shopId', 'id'], { name: 'photos_finding' })
@ForeignKey('ObservationRow', ['shopId', 'observationId'], ['shopId', 'id'], { name: 'photos_observation' })
@Unique('photos_of_contingency', ['shopId', 'id', 'contingencyId'])
@Unique('photos_once_a_contingency', ['shopId', 'contingencyId', 'sha256'])
@Unique('photos_once_a_finding', ['shopId', 'findingId', 'sha256'])
@Unique('photos_once_an_observation', ['shopId', 'observationId', 'sha256'])
@Entity('photos')
export class PhotoRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'photos_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'photos_pkey' })
  id: string;

  @Column('uuid', { name: 'observation_id', nullable: true })
  observationId: string | null;

  @Column('uuid', { name: 'finding_id', nullable: true })
  findingId: string | null;

  /** Of something that happened: the proof that goes with its charge. */
  @Column('uuid', { name: 'contingency_id', nullable: true })
  contingencyId: string | null;

  @Column('text', { name: 'storage_key' })
  storageKey: string;

  @Column('text')
  sha256: string;

  @Column('text', { name: 'media_type' })
  mediaType: string;

  @Column('integer')
  width: number;

  @Column('integer')
  height: number;

  @Column('integer')
  bytes: number;

  @Column('uuid', { name: 'taken_by' })
  takenBy: string;

  @Column('timestamptz', { name: 'added_at' })
  addedAt: Date;
}
