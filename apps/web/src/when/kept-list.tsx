import { useState } from 'react';
import { call, ifMatch } from '../api/client.js';
import type { ApiFault } from '../api/fault.js';
import { Refusal, refusalWords } from '../ui/refusal.js';
import { TakeIn } from './take-in.js';
import type { Reservation } from './when-types.js';

interface KeptListProps {
  readonly kept: readonly Reservation[];
  /** Something was done to one of them. */
  readonly onDone: (words: string) => void;
  /** Takes the call of a held place up again, as after the page was loaded anew; null while another one is in hand. */
  readonly onResume: ((held: Reservation) => void) | null;
}

/** What is held or kept for cars that are to come, in the order in which they come. */
export function KeptList({ kept, onDone, onResume }: KeptListProps) {
  return (
    <section className="kept" aria-labelledby="kept-heading">
      <h2 id="kept-heading">Kept places</h2>
      {kept.length === 0 && <p className="empty">Nothing is held or kept just now.</p>}
      <ul>
        {kept.map((one) => (
          <li key={one.id}>
            <KeptRow {...{ one, onDone, onResume }} />
          </li>
        ))}
      </ul>
    </section>
  );
}

interface KeptRowProps extends Pick<KeptListProps, 'onDone' | 'onResume'> {
  readonly one: Reservation;
}

function KeptRow({ one, onDone, onResume }: KeptRowProps) {
  const [fault, setFault] = useState<ApiFault | null>(null);
  const [isHere, setIsHere] = useState(false);
  const giveBack = async (): Promise<void> => {
    const answer = await call('delete', '/api/v1/reservations/{id}', {
      ...{ path: { id: one.id }, headers: ifMatch(one.version) },
    });
    if (answer.ok) onDone(`Reservation ${one.number} was given back.`);
    setFault(answer.ok ? null : answer.fault);
  };
  const mayUse = one.state === 'taken' && one.repairOrderId === null;
  return (
    <div className="kept-row">
      <span className="num">{one.number}</span>
      <p>
        <b>{one.words}</b>
        <span>
          {[
            one.vehicleWords,
            ...one.work.map(({ title, bayName }) => `${title}, ${bayName}`),
            one.phone,
            one.note,
          ]
            .filter((word) => word !== null)
            .join(' · ')}
        </span>
      </p>
      <div className="acts">
        {one.state === 'held' && onResume && (
          <button type="button" className="button" onClick={() => onResume(one)}>
            Go on with it<span className="vh">: reservation {one.number}</span>
          </button>
        )}
        {mayUse && !isHere && (
          <button type="button" className="button" onClick={() => setIsHere(true)}>
            The car is here<span className="vh">: reservation {one.number}</span>
          </button>
        )}
        <button type="button" className="plain" onClick={() => void giveBack()}>
          Give back<span className="vh"> reservation {one.number}</span>
        </button>
      </div>
      {mayUse && isHere && (
        <TakeIn one={one} onDone={onDone} onFault={setFault} onClose={() => setIsHere(false)} />
      )}
      <Refusal detail={fault ? refusalWords(fault, 'list') : undefined} />
    </div>
  );
}
