import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useCallback } from 'react';
import type { ApiFault } from '../api/fault.js';
import type { Plan, PlanRun } from '../api/plan-types.js';
import { type Refused, askAgain } from '../estimate/answers.js';
import type { LineState } from '../live/live-line.js';
import { useLive } from '../live/use-live.js';
import { PLAN, planNow, readPlan, readRun, runOf } from './read-plan.js';

export interface PlanInHand {
  readonly plan: Plan | undefined;
  /** What the plan would change and nobody has answered yet. */
  readonly proposal: PlanRun | undefined;
  /** Whether there is a proposal is known, and what is in it. */
  readonly isSettled: boolean;
  readonly fault: ApiFault | null;
  readonly line: LineState;
  readonly read: () => Promise<void>;
}

/** The plan and its open proposal, kept fresh: nearly everything that happens in the shop may move it. */
export function usePlan(): PlanInHand {
  const client = useQueryClient();
  const plan = useQuery<Plan, Refused>({
    queryKey: planNow,
    queryFn: readPlan,
    retry: false,
    refetchInterval: askAgain,
  });
  const openId = plan.data?.openProposalId ?? null;
  const proposal = useQuery<PlanRun, Refused>({
    queryKey: runOf(openId),
    queryFn: ({ signal }) => readRun(openId ?? '', signal),
    enabled: openId !== null,
    retry: false,
    refetchInterval: askAgain,
  });
  const read = useCallback(() => client.invalidateQueries({ queryKey: [PLAN] }), [client]);
  const line = useLive(plan.data ? '' : undefined, read);
  const fault = plan.error ?? (openId === null ? null : proposal.error);
  return {
    plan: plan.data,
    proposal: openId === null ? undefined : proposal.data,
    isSettled: openId === null || proposal.data !== undefined || proposal.error !== null,
    fault,
    line: fault?.code === 'line-lost' ? 'lost' : line,
    read,
  };
}
