import { useRef, useState } from 'react';
import type { ApiFault } from '../api/fault.js';
import type { Plan, PlanRun } from '../api/plan-types.js';
import { Refusal } from '../ui/refusal.js';
import { type Act, accept, reject } from './acts.js';
import { ChangeList, PromiseChanges } from './change-list.js';
import { type Wall, count, forWhat, moment, span } from './words.js';

interface ProposalProps {
  readonly plan: Plan;
  readonly run: PlanRun | undefined;
  readonly wall: Wall;
  readonly mayDecide: boolean;
  readonly act: Act;
}

const nothing: Readonly<Record<Plan['mode'], string>> = {
  'by-hand':
    'Here people place the work. The plan changes nothing and only says which promises no longer hold.',
  propose:
    'Nothing: the plan has no proposal just now. One appears here by itself when something happens that matters.',
  apply:
    'Nothing waits for an answer: the plan changes at once, and what it changed stands under what happened lately.',
};

/** What the plan would change, as a whole to be accepted or left. */
export function Proposal({ plan, run, wall, mayDecide, act }: ProposalProps) {
  const heading = useRef<HTMLHeadingElement>(null);
  const [refused, setRefused] = useState<Refused | null>(null);
  const [isBusy, setIsBusy] = useState(false);
  const answer = async (one: PlanRun, isAccepted: boolean): Promise<void> => {
    setIsBusy(true);
    const words = isAccepted
      ? `Accepted: ${count(one.changeCount, 'work order')} moved.`
      : 'The plan stays as it is until something else happens.';
    const fault = await act((isAccepted ? accept : reject)(one.id), words, true);
    setIsBusy(false);
    setRefused(fault && { runId: one.id, fault });
    // The buttons are gone with the proposal: the focus goes to what told of it.
    if (!fault) heading.current?.focus();
  };
  const isOutdated = refused?.fault.code === 'plan-outdated' && refused.runId === plan.openProposalId;
  return (
    <section className="proposal" aria-labelledby="proposal-title">
      <h2 id="proposal-title" ref={heading} tabIndex={-1}>
        What the plan would change
      </h2>
      <Refusal detail={refused ? refusedWords(refused, plan.openProposalId) : undefined} />
      {plan.openProposalId === null && <p className="notice">{nothing[plan.mode]}</p>}
      {plan.openProposalId !== null && !run && <p aria-busy="true">Reading the proposal …</p>}
      {run && (
        <div className="sheet-of-changes">
          <p className="proposal-why">
            {forWhat(run, wall)}{' '}
            <span className="until">Worked out {moment(run.endedAt ?? run.askedAt, wall)}.</span>
          </p>
          <p>{costWords(run)}</p>
          <PromiseChanges promises={run.promises} wall={wall} />
          {mayDecide && !isOutdated && (
            <div className="acts">
              <button
                type="button"
                className="button main"
                disabled={isBusy}
                onClick={() => void answer(run, true)}
              >
                Accept all of it
              </button>
              <button
                type="button"
                className="button"
                disabled={isBusy}
                onClick={() => void answer(run, false)}
              >
                Leave it as it is
              </button>
            </div>
          )}
          {!mayDecide && <p className="hint">The front desk or the manager answers it.</p>}
          <ChangeList changes={run.changes} wall={wall} />
        </div>
      )}
    </section>
  );
}

interface Refused {
  readonly runId: string;
  readonly fault: ApiFault;
}

/** Stays until the next answer: the new proposal may come at once, and must not be taken for the one that was meant. */
function refusedWords({ runId, fault }: Refused, openId: string | null): string {
  if (fault.code !== 'plan-outdated') return fault.detail;
  const next =
    openId === runId
      ? 'What it then proposes appears here by itself.'
      : openId === null
        ? 'There is nothing to propose any more.'
        : 'What stands below is a new proposal; look at it before you answer.';
  return `It was not accepted, because it no longer fits. ${fault.detail} ${next}`;
}

/** What it is worth: lateness and work without a place, before and after. */
function costWords({ cost, costBefore, changeCount }: PlanRun): string {
  const moves = `${count(changeCount, 'work order')} would move.`;
  if (cost === null || costBefore === null) return moves;
  const parts = [moves];
  const late = (minutes: number): string => (minutes === 0 ? 'nothing' : `${span(minutes)} late`);
  if (cost.lateness !== costBefore.lateness)
    parts.push(
      `All promises together come to ${late(costBefore.lateness)} as the plan stands, by this one to ${late(cost.lateness)}.`,
    );
  // Where no more work is placed, only what cannot be kept is ever given up for something later.
  if (cost.lateness > costBefore.lateness && cost.unplaced >= costBefore.unplaced)
    parts.push('What stands now cannot all be kept; the reason stands beside each work.');
  if (cost.unplaced !== costBefore.unplaced)
    parts.push(`Work without a place: ${cost.unplaced} instead of ${costBefore.unplaced}.`);
  return parts.join(' ');
}
