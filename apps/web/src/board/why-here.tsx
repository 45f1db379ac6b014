import './why-here.css';
import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { Plan, PlannedWork } from '../api/plan-types.js';
import type { Ticket } from '../api/types.js';
import type { Refused } from '../estimate/answers.js';
import { pin } from '../plan/acts.js';
import { planNow, readPlan } from '../plan/read-plan.js';
import { Standing } from '../plan/reasons.js';
import { type Wall, said } from '../plan/words.js';
import { Refusal } from '../ui/refusal.js';
import type { AfterAct } from './act-bar.js';
import { type Person, mayPlan } from './may-plan.js';
import { dayOf } from './zone-time.js';

interface WhyHereProps {
  readonly ticket: Ticket;
  readonly person: Person;
  readonly after: AfterAct;
}

/** Why the work has this place and begins no earlier, and whether the plan may move it. */
export function WhyHere({ ticket, person, after }: WhyHereProps) {
  const { data: plan } = useQuery<Plan, Refused>({
    // Asked again when the board says that this ticket's place is another one.
    queryKey: [...planNow, ticket.assignment?.version ?? null],
    queryFn: readPlan,
    placeholderData: keepPreviousData,
    staleTime: 5_000,
    retry: false,
  });
  if (!plan) return null;
  const wall: Wall = { zone: plan.timeZone, today: dayOf(Date.parse(plan.now), plan.timeZone) };
  const work = plan.planned.find((one) => one.workOrderId === ticket.workOrderId);
  const unplaced = plan.notPlanned.find((one) => one.workOrderId === ticket.workOrderId);
  if (!work && !unplaced) return null;
  return (
    <section className="why-here">
      <h3>{work ? 'Why here, why then' : 'Why it has no place'}</h3>
      {unplaced && <p>{said(unplaced.why, wall)}</p>}
      {work && <Standing work={work} wall={wall} />}
      {work && mayPlan(person) && !work.isOnTheClock && <PinSwitch work={work} after={after} />}
    </section>
  );
}

function PinSwitch({ work, after }: { readonly work: PlannedWork; readonly after: AfterAct }) {
  const [refusal, setRefusal] = useState<string>();
  const press = async (): Promise<void> => {
    const words = work.isPinned ? `The plan may move ${work.number}.` : `${work.number} is kept where it is.`;
    const fault = await after(pin(work, !work.isPinned), words);
    setRefusal(fault?.detail);
  };
  return (
    <>
      <button type="button" className="button" onClick={() => void press()}>
        {work.isPinned ? 'Let the plan move it' : 'Keep it here'}
      </button>
      <Refusal detail={refusal} />
    </>
  );
}
