import { Column, Entity, ForeignKey, PrimaryColumn, Unique } from 'typeorm';

@ForeignKey('InspectionTemplateRow', ['shopId', 'templateId'], ['shopId', 'id'], {
  name: 'stations_template',
})
@Unique('stations_of_template', ['shopId', 'id', 'templateId'])
@Unique('stations_sequence_taken', ['shopId', 'templateId', 'sequence'])
@Entity('stations')
export class StationRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'stations_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'stations_pkey' })
  id: string;

  @Column('uuid', { name: 'template_id' })
  templateId: string;

  @Column('integer')
  sequence: number;

  @Column('text')
  name: string;
}
