import './awaited.css';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { call } from '../../api/client.js';
import type { PartNeed, Ticket } from '../../api/types.js';
import { valueOf } from '../../estimate/answers.js';
import { type Wall, count, moment } from '../../plan/words.js';
import type { AfterAct } from '../act-bar.js';
import { ExpectForm } from './expect-form.js';

interface AwaitedProps {
  readonly ticket: Ticket;
  readonly wall: Wall;
  readonly after: AfterAct;
}

/** Parts and work at other firms that are still to come, since when who knows it, and the act that tells a new time. */
export function Awaited({ ticket, wall, after }: AwaitedProps) {
  const { data } = useQuery({
    // Under the board's key, so that whatever reads the board again reads this again too.
    queryKey: ['board', 'awaited', ticket.workOrderId],
    queryFn: ({ signal }) =>
      valueOf(
        call('get', '/api/v1/repair-orders/{id}/part-needs', { path: { id: ticket.repairOrderId }, signal }),
      ),
    retry: false,
  });
  const out = (data?.items ?? []).filter(
    (need) => need.workOrderId === ticket.workOrderId && need.missingHundredths > 0,
  );
  if (out.length === 0) return null;
  return (
    <section className="awaited" aria-labelledby="awaited-title">
      <h3 id="awaited-title">Still to come: {count(out.length, 'item')}</h3>
      <ul>
        {out.map((need) => (
          <li key={need.lineItemId}>
            <Need {...{ need, wall, after }} />
          </li>
        ))}
      </ul>
    </section>
  );
}

function whenWords({ expectedAt, isOverdue }: PartNeed, wall: Wall): string {
  if (expectedAt === null) return 'nobody knows when';
  return `${isOverdue ? 'overdue since' : 'expected'} ${moment(expectedAt, wall)}`;
}

function toldWords({ told }: PartNeed, wall: Wall): string {
  if (told === null) return 'As the estimate says.';
  const note = told.note === null ? '' : ` ${told.note}`;
  return `Told ${moment(told.at, wall)} by ${told.by.displayName}.${note}`;
}

function Need({ need, wall, after }: Pick<AwaitedProps, 'wall' | 'after'> & { readonly need: PartNeed }) {
  const [telling, setTelling] = useState(false);
  return (
    <>
      <p>
        <b>{need.name}</b>, {whenWords(need, wall)}. <span className="hint">{toldWords(need, wall)}</span>
      </p>
      {telling ? (
        <ExpectForm {...{ need, wall, after }} onDone={() => setTelling(false)} />
      ) : (
        <button
          type="button"
          className="button"
          aria-label={`Tell when it comes: ${need.name}`}
          onClick={() => setTelling(true)}
        >
          Tell when it comes
        </button>
      )}
    </>
  );
}
