import { useQuery, useQueryClient } from '@tanstack/react-query';
import { call, ifMatch } from '../api/client.js';
import type { ApiFault } from '../api/fault.js';
import type { PlanSettings, PlanSettingsRequest } from '../api/plan-types.js';
import { type Refused, valueOf } from '../estimate/answers.js';
import { PLAN } from './read-plan.js';

/** Not under the plan's key: what happens on the floor does not change them. */
const SETTINGS = ['plan-settings'];

export interface SettingsInHand {
  readonly settings: PlanSettings | undefined;
  readonly fault: ApiFault | null;
  /** Puts these in place of version `of`; null when they are kept. */
  readonly save: (wanted: PlanSettingsRequest, of: number) => Promise<ApiFault | null>;
}

export function useSettings(): SettingsInHand {
  const client = useQueryClient();
  const { data, error } = useQuery<PlanSettings, Refused>({
    queryKey: SETTINGS,
    queryFn: ({ signal }) => valueOf(call('get', '/api/v1/plan/settings', { signal })),
    retry: false,
  });
  const save = async (wanted: PlanSettingsRequest, of: number): Promise<ApiFault | null> => {
    const answer = await call('put', '/api/v1/plan/settings', { body: wanted, headers: ifMatch(of) });
    // Also after a refusal: where somebody was faster, their settings are what the next attempt replaces.
    await Promise.all([SETTINGS, [PLAN]].map((queryKey) => client.invalidateQueries({ queryKey })));
    return answer.ok ? null : answer.fault;
  };
  return { settings: data, fault: error, save };
}
