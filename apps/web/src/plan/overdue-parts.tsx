import '../board/awaited/awaited.css';
import { useState } from 'react';
import type { OverduePart, Plan } from '../api/plan-types.js';
import { ExpectForm } from '../board/awaited/expect-form.js';
import type { Act } from './acts.js';
import { type Wall, moment } from './words.js';

interface OverdueProps {
  readonly plan: Plan;
  readonly wall: Wall;
  readonly mayDecide: boolean;
  readonly act: Act;
}

/** Parts that should have come: whom to ask today, and where the new time is told. */
export function OverdueParts({ plan, wall, mayDecide, act }: OverdueProps) {
  const { overdueParts, planned } = plan;
  if (overdueParts.length === 0) return null;
  const placed = new Set(planned.map(({ workOrderId }) => workOrderId));
  return (
    <section className="awaited overdue" aria-labelledby="overdue-title">
      <h2 id="overdue-title">Overdue parts</h2>
      <p className="hint">Ask the supplier, and tell when they come.</p>
      <ul>
        {overdueParts.map((part) => (
          <li key={part.lineItemId}>
            <Overdue {...{ part, wall, mayDecide, act }} isPlanned={placed.has(part.workOrderId)} />
          </li>
        ))}
      </ul>
    </section>
  );
}

interface OneProps extends Omit<OverdueProps, 'plan'> {
  readonly part: OverduePart;
  readonly isPlanned: boolean;
}

function Overdue({ part, isPlanned, wall, mayDecide, act }: OneProps) {
  const [telling, setTelling] = useState(false);
  const { lineItemId, name, since, number, title, vehicle } = part;
  return (
    <>
      <p>
        <b>{name}</b>, since {moment(since, wall)}
        {part.kind === 'sublet' && ', at another firm'}. For <span className="num">{number}</span> {title},{' '}
        {vehicle.label}
        {vehicle.plate !== null && ` ${vehicle.plate}`}
        {isPlanned ? ', which is planned as if it came any minute.' : ', which has no place until then.'}
      </p>
      {telling && (
        <ExpectForm
          need={{ lineItemId, name, expectedAt: since }}
          wall={wall}
          after={(done, words) => act(done, words, true)}
          onDone={() => setTelling(false)}
        />
      )}
      {mayDecide && !telling && (
        <button
          type="button"
          className="button"
          aria-label={`Tell when it comes: ${name}, ${number}`}
          onClick={() => setTelling(true)}
        >
          Tell when it comes
        </button>
      )}
    </>
  );
}
