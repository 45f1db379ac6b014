import { Check, Column, Entity, ForeignKey, PrimaryColumn, Unique } from 'typeorm';

@Check(
  'checkpoints_limit',
  '(((limit_value IS NULL) = (limit_comparator IS NULL)) AND ((limit_value IS NULL) = (limit_source IS NULL)))',
)
@Check('checkpoints_limit_comparator', `(limit_comparator = ANY (ARRAY['min'::text, 'max'::text]))`)
@Check('checkpoints_limit_needs_reading', '((limit_value IS NULL) OR (reading_name IS NOT NULL))')
@Check('checkpoints_reading', '((reading_name IS NULL) = (reading_unit IS NULL))')
@ForeignKey('StationRow', ['shopId', 'stationId', 'templateId'], ['shopId', 'id', 'templateId'], {
  name: 'checkpoints_station',
})
@ForeignKey('InspectionTemplateRow', ['shopId', 'templateId'], ['shopId', 'id'], {
  name: 'checkpoints_template',
})
@Unique('checkpoints_sequence_taken', ['shopId', 'stationId', 'sequence'])
@Entity('checkpoints')
export class CheckpointRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'checkpoints_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'checkpoints_pkey' })
  id: string;

  @Column('uuid', { name: 'template_id' })
  templateId: string;

  @Column('uuid', { name: 'station_id' })
  stationId: string;

  @Column('integer')
  sequence: number;

  @Column('text')
  component: string;

  @Column('text')
  position: string;

  @Column('text', { name: 'reading_name', nullable: true })
  readingName: string | null;

  @Column('text', { name: 'reading_unit', nullable: true })
  readingUnit: string | null;

  @Column('text', { name: 'limit_comparator', nullable: true })
  limitComparator: string | null;

  @Column('text', { name: 'limit_value', nullable: true })
  limitValue: string | null;

  @Column('text', { name: 'limit_source', nullable: true })
  limitSource: string | null;
}
