import { Check, Column, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';

/** One look at the plan: what asked for it, what it found, what became of that. Without an outcome it is still to come. */
@Check(
  'plan_runs_decided',
  "(((decided_at IS NULL) = (decision IS NULL)) AND ((decision IS NULL) OR (proposal IS NOT NULL)) AND ((decided_by IS NOT NULL) = ((decision IS NOT NULL) AND (decision <> 'superseded'::text))))",
)
@Check(
  'plan_runs_decision',
  `(decision = ANY (ARRAY['accepted'::text, 'rejected'::text, 'superseded'::text]))`,
)
@Check('plan_runs_ended', '((outcome IS NULL) = (ended_at IS NULL))')
@Check(
  'plan_runs_outcome',
  `(outcome = ANY (ARRAY['unchanged'::text, 'applied'::text, 'proposed'::text, 'outdated'::text, 'failed'::text]))`,
)
@Check(
  'plan_runs_proposal',
  `((proposal IS NOT NULL) = ((outcome IS NOT NULL) AND (outcome = 'proposed'::text)))`,
)
@ForeignKey('StaffMemberRow', ['shopId', 'askedBy'], ['shopId', 'id'], { name: 'plan_runs_asked_by' })
@ForeignKey('StaffMemberRow', ['shopId', 'decidedBy'], ['shopId', 'id'], { name: 'plan_runs_decided_by' })
@ForeignKey('ShopRow', ['shopId'], ['shopId'], { name: 'plan_runs_shop' })
@Index('plan_runs_asked_for', ['shopId', 'askedAt'], { where: '(outcome IS NULL)' })
@Index('plan_runs_by_events', ['shopId', 'eventsUntil'])
@Index('plan_runs_one_open_proposal', ['shopId'], {
  unique: true,
  where: `((outcome = 'proposed'::text) AND (decision IS NULL))`,
})
@Index('plan_runs_to_forget', ['shopId', 'endedAt'], {
  where: `(outcome = ANY (ARRAY['unchanged'::text, 'outdated'::text, 'failed'::text]))`,
})
@Entity('plan_runs')
export class PlanRunRow {
  @PrimaryColumn('uuid', { name: 'shop_id', primaryKeyConstraintName: 'plan_runs_pkey' })
  shopId: string;

  @PrimaryColumn('uuid', { primaryKeyConstraintName: 'plan_runs_pkey' })
  id: string;

  @Column('jsonb')
  causes: object;

  @Column('boolean')
  improve: boolean;

  @Column('timestamptz', { name: 'asked_at' })
  askedAt: Date;

  @Column('uuid', { name: 'asked_by', nullable: true })
  askedBy: string | null;

  /** The last live event that it knew of; what came later is a cause of the next run. */
  @Column('bigint', { name: 'events_until', nullable: true })
  eventsUntil: string | null;

  @Column('timestamptz', { name: 'started_at', nullable: true })
  startedAt: Date | null;

  @Column('timestamptz', { name: 'ended_at', nullable: true })
  endedAt: Date | null;

  @Column('text', { nullable: true })
  outcome: string | null;

  @Column('text', { nullable: true })
  detail: string | null;

  @Column('jsonb', { name: 'cost_before', nullable: true })
  costBefore: object | null;

  @Column('jsonb', { nullable: true })
  cost: object | null;

  @Column('integer', { name: 'lateness_bound', nullable: true })
  latenessBound: number | null;

  @Column('integer', { name: 'solve_ms', nullable: true })
  solveMs: number | null;

  @Column('jsonb')
  changes: object;

  @Column('jsonb')
  promises: object;

  @Column('jsonb')
  late: object;

  @Column('jsonb', { nullable: true })
  proposal: object | null;

  @Column('timestamptz', { name: 'decided_at', nullable: true })
  decidedAt: Date | null;

  @Column('uuid', { name: 'decided_by', nullable: true })
  decidedBy: string | null;

  @Column('text', { nullable: true })
  decision: string | null;
}
