import { Check, Column, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';

@Check('line_relations_kind', `(kind = ANY (ARRAY['requires'::text, 'excludes'::text]))`)
@Check('line_relations_not_itself', '(line_id <> other_line_id)')
@ForeignKey('LineRow', ['shopId', 'lineId', 'revisionId'], ['shopId', 'id', 'revisionId'], {
  name: 'line_relations_line',
})
@ForeignKey('LineRow', ['shopId', 'otherLineId', 'revisionId'], ['shopId', 'id', 'revisionId'], {
  name: 'line_relations_other',
})
@Index('line_relations_of_other', ['shopId', 'otherLineId'])
@Entity('line_relations')
export class LineRelationRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'line_relations_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { name: 'line_id', primaryKeyConstraintName: 'line_relations_pkey' })
  lineId: string;

  @PrimaryColumn('uuid', { name: 'other_line_id', primaryKeyConstraintName: 'line_relations_pkey' })
  otherLineId: string;

  @Column('uuid', { name: 'revision_id' })
  revisionId: string;

  @Column('text')
  kind: 'requires' | 'excludes';
}
