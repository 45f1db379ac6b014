import './happened.css';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { call } from '../../api/client.js';
import type { Ticket, WorkContingency } from '../../api/types.js';
import type { AfterAct } from '../act-bar.js';
import { bookHours } from '../look.js';
import { type Person, mayPlan } from '../may-plan.js';
import type { PrintContext } from '../print.js';
import { clockTime } from '../zone-time.js';
import { HappenedForm } from './happened-form.js';
import { useDraft } from './use-draft.js';

interface SlipProps {
  readonly ticket: Ticket;
  readonly person: Person;
  readonly context: PrintContext;
  readonly after: AfterAct;
}

const readContingencies = async (id: string, signal: AbortSignal): Promise<readonly WorkContingency[]> => {
  const answer = await call('get', '/api/v1/work-orders/{id}/contingencies', { path: { id }, signal });
  if (!answer.ok) throw Object.assign(new Error(answer.fault.detail), answer.fault);
  return answer.value.items;
};

/** Only where the work has begun and this person may speak for it; the server decides. */
function mayTell(ticket: Ticket, person: Person): boolean {
  const hasBegun = ticket.clockedSeconds > 0 || ['on-the-clock', 'paused', 'finished'].includes(ticket.state);
  return hasBegun && (ticket.claim?.technicianId === person.id || mayPlan(person));
}

/** What may happen on this work, what the owner said to it, and the act that tells that it has happened. */
export function ContingencySlip({ ticket, person, context, after }: SlipProps) {
  const { data = [] } = useQuery({
    // Under the board's key, so that whatever reads the board again reads this again too.
    queryKey: ['board', 'contingencies', ticket.workOrderId],
    queryFn: ({ signal }) => readContingencies(ticket.workOrderId, signal),
    retry: false,
  });
  if (data.length === 0) return null;
  return (
    <section className="maybe">
      <h3>What may happen</h3>
      <ul>
        {data.map((one) => (
          <li key={one.contingencyId}>
            <Contingency contingency={one} {...{ ticket, person, context, after }} />
          </li>
        ))}
      </ul>
    </section>
  );
}

function extraWords({ hundredths, items }: WorkContingency): string {
  const parts = items.map(({ words, quantityHundredths }) =>
    quantityHundredths === 100 ? words : `${quantityHundredths / 100} × ${words}`,
  );
  return [...(hundredths === 0 ? [] : [`${bookHours(hundredths)} h more`]), ...parts].join(', ');
}

function Contingency({ contingency, ...props }: SlipProps & { readonly contingency: WorkContingency }) {
  const { ticket, person, context, after } = props;
  const [telling, setTelling] = useState(false);
  const { what, state, trigger } = contingency;
  return (
    <>
      <p>
        <b>{what}</b> <span className="hint">{extraWords(contingency)}</span>
      </p>
      {trigger && (
        <p>
          Told at {clockTime(Date.parse(trigger.triggeredAt), context.zone)} by {trigger.triggeredBy}:{' '}
          {trigger.reason}
        </p>
      )}
      {(state === 'proposed' || state === 'refused') && (
        <p>The owner wants to be asked first. If it happens, stop there and tell the front desk.</p>
      )}
      {state === 'agreed' && !mayTell(ticket, person) && (
        <p>The owner has agreed to it in advance. Whoever holds this work tells it once it is under way.</p>
      )}
      {state === 'agreed' &&
        mayTell(ticket, person) &&
        (telling ? (
          <Telling
            contingency={contingency}
            ticket={ticket}
            staffId={person.id}
            after={after}
            onDone={() => setTelling(false)}
          />
        ) : (
          <button type="button" className="button" onClick={() => setTelling(true)}>
            It happened
          </button>
        ))}
    </>
  );
}

interface TellingProps {
  readonly contingency: WorkContingency;
  readonly ticket: Ticket;
  readonly staffId: string;
  readonly after: AfterAct;
  readonly onDone: () => void;
}

function Telling({ contingency, ticket, staffId, after, onDone }: TellingProps) {
  const inHand = useDraft(staffId, contingency.contingencyId);
  return (
    inHand && (
      <HappenedForm workOrderNumber={ticket.workOrderNumber} {...{ contingency, inHand, after, onDone }} />
    )
  );
}
