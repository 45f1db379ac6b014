import { useQuery } from '@tanstack/react-query';
import { call } from '../api/client.js';
import type { NotPlanned, Plan } from '../api/plan-types.js';
import { valueOf } from '../estimate/answers.js';
import { type Act, leaveOut } from './acts.js';
import { type Wall, moment, said } from './words.js';

interface ListProps {
  readonly plan: Plan;
  readonly wall: Wall;
  readonly mayDecide: boolean;
  readonly act: Act;
}

/** Open work that has no place, each with the reason. */
export function NotPlannedList({ plan, wall, mayDecide, act }: ListProps) {
  const { notPlanned } = plan;
  return (
    <section className="not-planned" aria-labelledby="unplaced-title">
      <h2 id="unplaced-title">Without a place</h2>
      {notPlanned.length === 0 && <p className="notice">All open work has a place.</p>}
      <ul>
        {notPlanned.map((one) => (
          <li key={one.workOrderId}>
            <b>
              <span className="num">{one.number}</span> {one.title}
            </b>
            <p>{said(one.why, wall)}</p>
            {mayDecide && <LetIn {...{ one, wall, act }} />}
          </li>
        ))}
      </ul>
    </section>
  );
}

interface LetInProps {
  readonly one: NotPlanned;
  readonly wall: Wall;
  readonly act: Act;
}

/** Only where a person took it out: who that was, and the way back. */
function LetIn({ one, wall, act }: LetInProps) {
  const { data } = useQuery({
    // The reason is another one when it was taken out; nothing else that happens is worth asking again for.
    queryKey: ['left-out', one.workOrderId, one.why],
    queryFn: ({ signal }) =>
      valueOf(call('get', '/api/v1/work-orders/{id}/planning', { path: { id: one.workOrderId }, signal })),
    retry: false,
  });
  if (data?.leftOut !== true) return null;
  return (
    <p className="let-in">
      {data.by && `By ${data.by.displayName}`}
      {data.since !== null && `, ${moment(data.since, wall)}. `}
      <button
        type="button"
        aria-label={`Let it into the plan: ${one.number} ${one.title}`}
        onClick={() => void act(leaveOut(one.workOrderId, false), `The plan may give ${one.number} a place.`)}
      >
        Let it into the plan
      </button>
    </p>
  );
}
