import { Flag, OneOf } from '../../../platform/http/fields.js';
import { PageQuery } from '../../../platform/http/pages.js';

/** What came of a run. */
export const PLAN_OUTCOMES = ['unchanged', 'applied', 'proposed', 'outdated', 'failed'] as const;
export type PlanOutcome = (typeof PLAN_OUTCOMES)[number];

export class AskForPlanRequest {
  @Flag({
    optional: true,
    description:
      'Looks longer for a better plan, also where the present one still holds. What it finds is always a proposal. False when left out.',
  })
  improve?: boolean;
}

export class PlanRunsQuery extends PageQuery {
  @OneOf(PLAN_OUTCOMES, { optional: true, description: 'Only runs that came to this.' })
  outcome?: PlanOutcome;
}

export class WorkOrderPlanningRequest {
  @Flag({
    description:
      'True takes the work order out of the plan and gives up its place. False lets the plan give it one again; so does a claim or a place given by hand.',
  })
  leftOut: boolean;
}
