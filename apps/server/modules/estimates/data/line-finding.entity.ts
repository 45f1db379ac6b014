import { Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';

@ForeignKey('FindingRow', ['shopId', 'findingId'], ['shopId', 'id'], { name: 'line_findings_finding' })
@ForeignKey('LineRow', ['shopId', 'lineId'], ['shopId', 'id'], { name: 'line_findings_line' })
@Index('line_findings_of_finding', ['shopId', 'findingId'])
@Entity('line_findings')
export class LineFindingRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'line_findings_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { name: 'line_id', primaryKeyConstraintName: 'line_findings_pkey' })
  lineId: string;

  @PrimaryColumn('uuid', { name: 'finding_id', primaryKeyConstraintName: 'line_findings_pkey' })
  findingId: string;
}
