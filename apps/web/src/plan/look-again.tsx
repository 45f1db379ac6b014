import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { call } from '../api/client.js';
import type { PlanRun } from '../api/plan-types.js';
import { type Refused } from '../estimate/answers.js';
import { Refusal } from '../ui/refusal.js';
import { readRun, runOf } from './read-plan.js';
import { type Wall, moment, said } from './words.js';

/** Asks for a longer look, and says what came of it. */
export function LookAgain({ wall }: { readonly wall: Wall }) {
  const [runId, setRunId] = useState<string | null>(null);
  const [refused, setRefused] = useState<string | undefined>(undefined);
  const run = useQuery<PlanRun, Refused>({
    queryKey: runOf(runId),
    queryFn: ({ signal }) => readRun(runId ?? '', signal),
    enabled: runId !== null,
    retry: false,
    // The live line tells of the end; this is for when it is lost just then.
    refetchInterval: (of) => (of.state.data?.outcome === null ? 5_000 : false),
  });
  const isUnderWay = runId !== null && (run.data === undefined || run.data.outcome === null);
  const ask = async (): Promise<void> => {
    const answer = await call('post', '/api/v1/plan/runs', { body: { improve: true } });
    setRefused(answer.ok ? undefined : answer.fault.detail);
    if (answer.ok) setRunId(answer.value.id);
  };
  return (
    <div className="look-again">
      <p>
        After every event the plan is looked at for a moment only. A longer look may find more; what it finds
        is always a proposal, whoever changes the plan otherwise.
      </p>
      <button type="button" className="button" disabled={isUnderWay} onClick={() => void ask()}>
        Look for a better plan
      </button>
      <Refusal detail={refused} />
      <p role="status">
        {runId === null ? '' : isUnderWay ? 'Looking …' : run.data && resultWords(run.data, wall)}
      </p>
    </div>
  );
}

function resultWords(run: PlanRun, wall: Wall): string {
  const at = run.endedAt === null ? '' : ` (${moment(run.endedAt, wall)})`;
  switch (run.outcome) {
    case 'unchanged':
      return `Nothing better was found${at}.`;
    case 'proposed':
      return run.decision === null
        ? `Something better was found${at}: it stands above as a proposal.`
        : `What was found${at} has been answered.`;
    case 'outdated':
      return `Something happened meanwhile${at}; another look follows by itself.`;
    case 'applied':
      return `The plan was changed${at}.`;
    case 'failed':
    case null:
      return `It came to no end${at}. ${said(run.detail ?? '', wall)}`;
  }
}
