import { Check, Column, Entity, ForeignKey, PrimaryColumn, Unique } from 'typeorm';

@Check(
  'observations_may_drive',
  `(may_drive = ANY (ARRAY['yes'::text, 'to-the-shop-only'::text, 'no'::text]))`,
)
@Check(
  'observations_may_drive_goes_with_verdict',
  `((verdict = ANY (ARRAY['watch'::text, 'repair'::text])) = (may_drive IS NOT NULL))`,
)
@Check('observations_unseen_reason', `((verdict = 'unseen'::text) = (unseen_reason IS NOT NULL))`)
@Check(
  'observations_verdict',
  `(verdict = ANY (ARRAY['sound'::text, 'watch'::text, 'repair'::text, 'unseen'::text]))`,
)
@ForeignKey('CheckpointRow', ['shopId', 'checkpointId'], ['shopId', 'id'], {
  name: 'observations_checkpoint',
})
@ForeignKey('InspectionRow', ['shopId', 'inspectionId'], ['shopId', 'id'], {
  name: 'observations_inspection',
})
@Unique('observations_once_a_checkpoint', ['shopId', 'inspectionId', 'checkpointId'])
@Entity('observations')
export class ObservationRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'observations_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'observations_pkey' })
  id: string;

  @Column('uuid', { name: 'inspection_id' })
  inspectionId: string;

  @Column('uuid', { name: 'checkpoint_id' })
  checkpointId: string;

  @Column('text')
  verdict: string;

  @Column('text', { name: 'may_drive', nullable: true })
  mayDrive: string | null;

  @Column('text', { name: 'unseen_reason', nullable: true })
  unseenReason: string | null;

  @Column('date', { name: 'look_again_on', nullable: true })
  lookAgainOn: string | null;

  @Column('integer', { name: 'look_again_odometer', nullable: true })
  lookAgainOdometer: number | null;

  @Column('text', { nullable: true })
  title: string | null;

  @Column('text', { nullable: true })
  note: string | null;

  @Column('text', { nullable: true })
  consequence: string | null;

  @Column('text', { name: 'limit_text', nullable: true })
  limitText: string | null;

  @Column('text', { name: 'limit_source', nullable: true })
  limitSource: string | null;

  @Column('uuid', { name: 'observed_by' })
  observedBy: string;

  @Column('timestamptz', { name: 'observed_at' })
  observedAt: Date;

  @Column('integer')
  version: number;
}
