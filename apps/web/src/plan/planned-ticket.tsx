import { useId, useState } from 'react';
import type { PlannedWork } from '../api/plan-types.js';
import { LookSign } from '../ui/signs.js';
import { type Act, leaveOut, pin } from './acts.js';
import { Standing } from './reasons.js';
import { type Wall, dayName, moment, timeOf } from './words.js';

interface TicketProps {
  readonly work: PlannedWork;
  readonly wall: Wall;
  readonly mayDecide: boolean;
  readonly act: Act;
  /** Where the day does not stand over it. */
  readonly namesDay: boolean;
}

/** A planned work order: when and where on its stub, why then on its face. */
export function PlannedTicket({ work, wall, mayDecide, act, namesDay }: TicketProps) {
  const { vehicle, startsAt, endsAt, isOnTheClock } = work;
  const title = useId();
  const sameDay = dayName(startsAt, wall) === dayName(endsAt, wall);
  return (
    <article
      className={`planned${isOnTheClock ? ' clocked' : ''}${work.isPinned ? ' kept' : ''}`}
      aria-labelledby={title}
    >
      <p className="planned-stub">
        {namesDay && <small>{dayName(startsAt, wall)}</small>}
        <b className="num">{timeOf(startsAt, wall)}</b>
        <small>to {sameDay ? timeOf(endsAt, wall) : moment(endsAt, wall)}</small>
      </p>
      <div className="planned-face">
        <h4 id={title}>
          <span className="num">{work.number}</span> {work.title}
        </h4>
        <p className="planned-where">
          {vehicle.label}
          {vehicle.plate !== null && <span className="plate">{vehicle.plate}</span>}
        </p>
        <p className="planned-where">
          {work.bayName}, {work.technicianName}
          {work.tools.length > 0 && `, with ${work.tools.map(({ name }) => name).join(' and ')}`}
          {work.bayUntil !== null &&
            `. The vehicle is apart and keeps the bay until ${moment(work.bayUntil, wall)}.`}
        </p>
        {isOnTheClock && (
          <p className="on-clock">
            <LookSign look="clocked" /> On the clock, expected to end {moment(work.expectedEndsAt, wall)}.
          </p>
        )}
        <Standing work={work} wall={wall} />
        {mayDecide && !isOnTheClock && <PlannedActs work={work} wall={wall} act={act} />}
      </div>
    </article>
  );
}

function PlannedActs({ work, wall, act }: Pick<TicketProps, 'work' | 'wall' | 'act'>) {
  const [isAsked, setIsAsked] = useState(false);
  const name = `${work.number} ${work.title}`;
  if (isAsked)
    return (
      <div className="sure">
        <p>
          It gives up its place, {moment(work.startsAt, wall)} in {work.bayName}, and gets no other until
          somebody lets it in again.
        </p>
        <div className="acts">
          <button
            type="button"
            className="button"
            // The question came in place of the button that had the focus.
            autoFocus
            onClick={() => void act(leaveOut(work.workOrderId, true), `${work.number} is out of the plan.`)}
          >
            Leave {work.number} out
          </button>
          <button type="button" className="plain" onClick={() => setIsAsked(false)}>
            Back
          </button>
        </div>
      </div>
    );
  return (
    <div className="planned-acts">
      <button
        type="button"
        aria-label={`${work.isPinned ? 'Let the plan move it' : 'Keep it here'}: ${name}`}
        onClick={() =>
          void act(
            pin(work, !work.isPinned),
            work.isPinned ? `The plan may move ${work.number}.` : `${work.number} is kept where it is.`,
          )
        }
      >
        {work.isPinned ? 'Let the plan move it' : 'Keep it here'}
      </button>
      <button type="button" aria-label={`Leave it out of the plan: ${name}`} onClick={() => setIsAsked(true)}>
        Leave it out of the plan
      </button>
    </div>
  );
}
