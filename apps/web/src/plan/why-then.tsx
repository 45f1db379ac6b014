import { useState } from 'react';
import type { Plan, PlannedWork } from '../api/plan-types.js';
import type { Act } from './acts.js';
import { PlannedTicket } from './planned-ticket.js';
import { type Wall, capital, count, dayName } from './words.js';

interface WhyProps {
  readonly plan: Plan;
  readonly wall: Wall;
  readonly mayDecide: boolean;
  readonly act: Act;
}
type Order = 'start' | 'bay';
const orderWords: Readonly<Record<Order, string>> = { start: 'By start', bay: 'By bay' };

/** What is open at first: a whole plan where it is short, else the next two days (or bays). */
const FEW = 12;
const OPEN_GROUPS = 2;

/** Every planned work order with why it starts no earlier. */
export function WhyThen({ plan, wall, mayDecide, act }: WhyProps) {
  const [order, setOrder] = useState<Order>('start');
  const groupOf = (work: PlannedWork): string =>
    order === 'bay' ? work.bayName : capital(dayName(work.startsAt, wall));
  const groups = grouped(plan.planned, groupOf);
  return (
    <section className="why-then" aria-labelledby="why-title">
      <div className="why-head">
        <h2 id="why-title">Why it starts then</h2>
        <fieldset className="orders-by">
          <legend className="vh">Order of the work</legend>
          {(['start', 'bay'] as const).map((one) => (
            <label key={one}>
              <input type="radio" name="order" checked={order === one} onChange={() => setOrder(one)} />
              <span>{orderWords[one]}</span>
            </label>
          ))}
        </fieldset>
      </div>
      {plan.planned.length === 0 && <p className="notice">No work has a place in the plan.</p>}
      {[...groups].map(([name, works], n) => (
        <details key={name} className="why-group" open={n < OPEN_GROUPS || plan.planned.length <= FEW}>
          <summary>
            <h3>{name}</h3> <span className="hint">{count(works.length, 'work order')}</span>
          </summary>
          <ul>
            {works.map((work) => (
              <li key={work.workOrderId}>
                <PlannedTicket {...{ work, wall, mayDecide, act }} namesDay={order === 'bay'} />
              </li>
            ))}
          </ul>
        </details>
      ))}
    </section>
  );
}

function grouped(
  works: readonly PlannedWork[],
  groupOf: (work: PlannedWork) => string,
): Map<string, PlannedWork[]> {
  const groups = new Map<string, PlannedWork[]>();
  for (const work of works) groups.set(groupOf(work), [...(groups.get(groupOf(work)) ?? []), work]);
  return groups;
}
