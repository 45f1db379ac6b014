import { call } from '../api/client.js';
import type { Plan, PlanRun } from '../api/plan-types.js';
import { valueOf } from '../estimate/answers.js';

/** Everything that is read of the plan stands under this key, so that one word makes all of it read again. */
export const PLAN = 'plan';
export const planNow = [PLAN, 'now'] as const;
export const runOf = (id: string | null) => [PLAN, 'run', id] as const;

export const readPlan = ({ signal }: { readonly signal: AbortSignal }): Promise<Plan> =>
  valueOf(call('get', '/api/v1/plan', { signal }));

export const readRun = (id: string, signal: AbortSignal): Promise<PlanRun> =>
  valueOf(call('get', '/api/v1/plan/runs/{id}', { path: { id }, signal }));
