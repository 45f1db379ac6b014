import { Check, Column, Entity, ForeignKey, Index, PrimaryColumn, Unique } from 'typeorm';

/** It happened: once for each contingency, on the strength of a yes to its cap, and never above it. */
@Check(
  'contingency_triggers_adds_up',
  '(total_cents = ((((labour_cents + parts_cents) + core_cents) + supplies_cents) + tax_cents))',
)
@Check('contingency_triggers_agreed_only', 'agreed')
@Check(
  'contingency_triggers_amounts',
  '((hundredths >= 0) AND (labour_cents >= 0) AND (parts_cents >= 0) AND (core_cents >= 0) AND (supplies_cents >= 0) AND (tax_cents >= 0) AND (supplies_base_cents >= 0))',
)
@Check('contingency_triggers_within_cap', '((total_cents <= cap_cents) AND (total_cents <= uncapped_cents))')
@ForeignKey('ContingencyRow', ['shopId', 'contingencyId', 'lineId'], ['shopId', 'id', 'lineId'], {
  name: 'contingency_triggers_contingency',
})
@ForeignKey(
  'ContingencyDecisionRow',
  ['shopId', 'agreementId', 'contingencyId', 'capCents', 'agreed'],
  ['shopId', 'id', 'contingencyId', 'capCents', 'agreed'],
  { name: 'contingency_triggers_agreed' },
)
@ForeignKey(
  'WorkOrderRow',
  ['shopId', 'workOrderId', 'lineId', 'repairOrderId'],
  ['shopId', 'id', 'lineId', 'repairOrderId'],
  { name: 'contingency_triggers_work_order' },
)
@ForeignKey('PhotoRow', ['shopId', 'photoId', 'contingencyId'], ['shopId', 'id', 'contingencyId'], {
  name: 'contingency_triggers_photo',
})
@ForeignKey('StaffMemberRow', ['shopId', 'triggeredBy'], ['shopId', 'id'], {
  name: 'contingency_triggers_by',
})
@Unique('contingency_triggers_once', ['shopId', 'contingencyId'])
@Index('contingency_triggers_of_repair_order', ['shopId', 'repairOrderId'])
@Index('contingency_triggers_of_work_order', ['shopId', 'workOrderId'])
@Entity('contingency_triggers')
export class ContingencyTriggerRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'contingency_triggers_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'contingency_triggers_pkey' })
  id: string;

  @Column('uuid', { name: 'repair_order_id' })
  repairOrderId: string;

  @Column('uuid', { name: 'line_id' })
  lineId: string;

  @Column('uuid', { name: 'work_order_id' })
  workOrderId: string;

  @Column('uuid', { name: 'contingency_id' })
  contingencyId: string;

  @Column('uuid', { name: 'agreement_id' })
  agreementId: string;

  @Column('boolean')
  agreed: boolean;

  @Column('integer', { name: 'cap_cents' })
  capCents: number;

  @Column('text')
  reason: string;

  @Column('uuid', { name: 'photo_id' })
  photoId: string;

  @Column('integer')
  hundredths: number;

  @Column('jsonb')
  items: unknown;

  @Column('integer', { name: 'labour_cents' })
  labourCents: number;

  @Column('integer', { name: 'parts_cents' })
  partsCents: number;

  @Column('integer', { name: 'core_cents' })
  coreCents: number;

  @Column('integer', { name: 'supplies_cents' })
  suppliesCents: number;

  @Column('integer', { name: 'tax_cents' })
  taxCents: number;

  @Column('integer', { name: 'total_cents' })
  totalCents: number;

  @Column('jsonb')
  taxes: unknown;

  @Column('integer', { name: 'uncapped_cents' })
  uncappedCents: number;

  /** What of it the supplies were a share of, for pricing whatever is agreed to next. */
  @Column('integer', { name: 'supplies_base_cents' })
  suppliesBaseCents: number;

  @Column('jsonb')
  breakdown: unknown;

  @Column('timestamptz', { name: 'triggered_at' })
  triggeredAt: Date;

  @Column('uuid', { name: 'triggered_by' })
  triggeredBy: string;
}
