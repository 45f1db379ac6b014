import { Entity, ForeignKey, PrimaryColumn } from 'typeorm';

@ForeignKey('FindingRow', ['shopId', 'findingId'], ['shopId', 'id'], { name: 'line_findings_finding' })
@ForeignKey('LineRow', ['shopId', 'lineId'], ['shopId', 'id'], { name: 'line_findings_line' })
@Entity('line_findings')
export class LineFindingRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'line_findings_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { name: 'line_id', primaryKeyConstraintName: 'line_findings_pkey' })
  lineId: string;

  @PrimaryColumn('uuid', { name: 'finding_id', primaryKeyConstraintName: 'line_findings_pkey' })
  findingId: string;
}
