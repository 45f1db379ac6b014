import { Check, Column, Entity, ForeignKey, PrimaryColumn, Unique } from 'typeorm';

/** An extra that is charged only if a named thing happens; frozen with its revision. */
@Check('contingencies_cap', '(cap_cents > 0)')
@Check('contingencies_chance', '((chance_ppm >= 1) AND (chance_ppm <= 999999))')
@Check('contingencies_hours', '(hundredths >= 0)')
@ForeignKey('LineRow', ['shopId', 'lineId'], ['shopId', 'id'], { name: 'contingencies_line' })
@Unique('contingencies_as_capped', ['shopId', 'id', 'lineId', 'capCents'])
@Unique('contingencies_of_line', ['shopId', 'id', 'lineId'])
@Unique('contingencies_sequence_taken', ['shopId', 'lineId', 'sequence'])
@Entity('contingencies')
export class ContingencyRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'contingencies_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'contingencies_pkey' })
  id: string;

  @Column('uuid', { name: 'line_id' })
  lineId: string;

  @Column('integer')
  sequence: number;

  @Column('text')
  what: string;

  @Column('integer', { name: 'chance_ppm' })
  chancePpm: number;

  @Column('integer')
  hundredths: number;

  @Column('integer', { name: 'cap_cents' })
  capCents: number;
}
