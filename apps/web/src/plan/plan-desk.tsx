import { useCallback, useEffect, useRef, useState } from 'react';
import type { Plan } from '../api/plan-types.js';
import { type Person, mayPlan } from '../board/may-plan.js';
import { dayOf } from '../board/zone-time.js';
import { useLate } from '../estimate/use-late.js';
import { refusalWords } from '../ui/refusal.js';
import { StatusLine } from '../ui/status-line.js';
import type { Act } from './acts.js';
import { LatePromises } from './late-promises.js';
import { Proposal } from './proposal.js';
import type { PlanInHand } from './use-plan.js';
import { WhyThen } from './why-then.js';
import { type Wall, lateWords, timeOf } from './words.js';

interface DeskProps {
  readonly plan: Plan;
  readonly inHand: PlanInHand;
  readonly person: Person;
}

const loadLateParts = () => import('./late-parts.js');

export function PlanDesk({ plan, inHand, person }: DeskProps) {
  const wall: Wall = { zone: plan.timeZone, today: dayOf(Date.parse(plan.now), plan.timeZone) };
  const { said, act, say, tell } = useActs(inHand.read);
  useNews(plan, tell);
  const late = useLate(loadLateParts, true, inHand.line);
  const mayDecide = mayPlan(person);
  // At first the rest waits for the proposal, which would push it down.
  const [isDrawn, setIsDrawn] = useState(inHand.isSettled);
  if (inHand.isSettled && !isDrawn) setIsDrawn(true);
  const isLead = person.roles.some((role) => role === 'manager' || role === 'administrator');
  return (
    <>
      <main className="plan">
        <LatePromises plan={plan} wall={wall} />
        <Proposal {...{ plan, wall, mayDecide, act }} run={inHand.proposal} />
        {isDrawn && (
          <div className="plan-columns">
            <WhyThen {...{ plan, wall, mayDecide, act }} />
            <div className="plan-aside">
              {late && (
                <>
                  <late.OverdueParts {...{ plan, wall, mayDecide, act }} />
                  <late.NotPlannedList {...{ plan, wall, mayDecide, act }} />
                  <late.Notes notes={plan.notes} wall={wall} />
                  <late.RunList wall={wall} />
                </>
              )}
            </div>
          </div>
        )}
        {isDrawn && late && isLead && <late.HowItIsMade wall={wall} say={say} />}
      </main>
      <StatusLine
        lost={inHand.line === 'lost'}
        lostWords={`This is the plan of ${timeOf(plan.now, wall)}. It is read again by itself.`}
        words={said.words}
        refused={said.refused}
      />
    </>
  );
}

interface Said {
  readonly words: string;
  readonly refused: boolean;
}
export type Say = (words: string, refused?: boolean) => void;

const RECENT_MS = 3000;

/** Runs what a person does, reads everything again, and says what came of it. */
function useActs(read: () => Promise<void>): { said: Said; act: Act; say: Say; tell: Say } {
  const [said, setSaid] = useState<Said>({ words: '', refused: false });
  const lastAct = useRef({ words: '', at: 0 });
  const say = useCallback<Say>((words, refused = false) => setSaid({ words, refused }), []);
  // What an act brings about is told behind the act, not in its place.
  const tell = useCallback<Say>((words) => {
    const { words: own, at } = lastAct.current;
    const isRecent = own !== '' && performance.now() - at < RECENT_MS;
    setSaid({ words: isRecent ? `${own} ${words}` : words, refused: false });
  }, []);
  const act = useCallback<Act>(
    async (done, words, tellsRefusal = false) => {
      const answer = await done;
      if (answer.ok) {
        lastAct.current = { words, at: performance.now() };
        say(words);
      } else say(tellsRefusal ? '' : refusalWords(answer.fault, 'plan'), true);
      if (answer.ok || answer.fault.status !== 0) await read();
      return answer.ok ? null : answer.fault;
    },
    [read, say],
  );
  return { said, act, say, tell };
}

/** Says what came by itself while the page was open; the rest of the page may be out of sight. */
function useNews({ late, openProposalId }: Plan, tell: Say): void {
  const before = useRef({ late: late.length, openProposalId });
  useEffect(() => {
    const was = before.current;
    before.current = { late: late.length, openProposalId };
    if (openProposalId !== null && openProposalId !== was.openProposalId) tell('The plan proposes a change.');
    else if (late.length > was.late)
      tell(`${lateWords(late.length)}, ${late.length - was.late} more than before.`);
  }, [late.length, openProposalId, tell]);
}
