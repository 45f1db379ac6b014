import type { QueryClient } from '@tanstack/react-query';
import { planNow, readPlan } from '../plan/read-plan.js';
import { lateWords } from '../plan/words.js';

/** What nobody at the board should miss of the plan; nothing when there is no more to say than its name. */
export async function planWords(client: QueryClient): Promise<string | undefined> {
  const { late, openProposalId } = await client.query({
    queryKey: planNow,
    queryFn: readPlan,
    staleTime: 0,
  });
  if (late.length > 0) return lateWords(late.length);
  return openProposalId === null ? undefined : 'The plan has a proposal';
}
