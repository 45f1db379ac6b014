import type { RefObject } from 'react';
import type { Bay, Board, Ticket } from '../api/types.js';
import { type Axis, isOnDay, percent, placeOf } from './axis.js';
import { FloorTicket, HeldTicket } from './floor-ticket.js';
import type { FloorHand, Held } from './hand.js';
import { bayWords } from './look.js';
import { type PrintContext, printOf } from './print.js';
import { ReservedInLane } from './reserved.js';
import { clockTime } from './zone-time.js';

export interface FloorViewProps {
  readonly board: Board;
  readonly axis: Axis;
  readonly context: PrintContext;
  readonly hand: FloorHand | null;
  readonly held: Held | null;
  readonly tabStop: string | undefined;
  readonly onOpen: (workOrderId: string) => void;
  readonly onFocus: (workOrderId: string) => void;
}
interface TimeViewProps extends FloorViewProps {
  readonly root: RefObject<HTMLElement | null>;
  readonly now: number;
  readonly lost: boolean;
}

/** The floor: one lane per bay under a steel rule of time. */
export function TimeView(props: TimeViewProps) {
  const { board, axis, now } = props;
  const isToday = now >= axis.from && now <= axis.to;
  return (
    <main className="floor" aria-label="Bays by time" ref={props.root} onClick={props.hand?.onTrackClick}>
      <Rule axis={axis} />
      <div className="grid-lines" aria-hidden="true">
        {axis.ticks
          .filter((tick) => tick.size === 'hour')
          .map((tick) => (
            <i key={tick.at} style={{ left: `${percent(axis, tick.at)}%` }} />
          ))}
      </div>
      {isToday && (
        <div className={`now${props.lost ? ' lost' : ''}`} aria-hidden="true">
          <i style={{ left: `${percent(axis, now)}%` }} />
        </div>
      )}
      {board.bays.map((bay) => (
        <Lane key={bay.id} bay={bay} {...props} />
      ))}
      {isToday && (
        <div className="now-flag" aria-hidden="true">
          <b style={{ left: `${percent(axis, now)}%` }}>{clockTime(now, board.timeZone)}</b>
        </div>
      )}
    </main>
  );
}

function Rule({ axis }: { readonly axis: Axis }) {
  const height = { hour: 22, half: 13, quarter: 7 };
  return (
    <div className="rule" aria-hidden="true">
      <svg width="100%" height="22">
        {axis.ticks.map((tick) => {
          const x = `${percent(axis, tick.at)}%`;
          return (
            <line key={tick.at} className={tick.size} x1={x} x2={x} y1={22 - height[tick.size]} y2="22" />
          );
        })}
      </svg>
      {axis.ticks
        .filter((tick) => tick.size === 'hour' && tick.at < axis.to)
        .map((tick) => (
          <b key={tick.at} style={{ left: `${percent(axis, tick.at)}%` }}>
            {tick.label}
          </b>
        ))}
    </div>
  );
}

function Lane(props: FloorViewProps & { readonly bay: Bay }) {
  const { bay, board, axis, context, held } = props;
  const inHand =
    held?.place?.bayId === bay.id
      ? board.tickets.find((ticket) => ticket.workOrderId === held.workOrderId)
      : undefined;
  const tickets = board.tickets
    .filter((ticket) => ticket.assignment?.bayId === bay.id && isOnDay(ticket, board))
    .sort((a, b) => startOf(a) - startOf(b));
  return (
    <section
      className={`lane${bay.outOfServiceReason === null ? '' : ' out'}`}
      aria-label={`Bay ${bay.number}, ${bay.name}`}
    >
      <BayHead bay={bay} />
      <div className="track" data-bay={bay.id}>
        <ReservedInLane board={board} bayId={bay.id} axis={axis} />
        {tickets.map((ticket) => (
          <LaneTicket key={ticket.workOrderId} ticket={ticket} {...props} />
        ))}
        {inHand && held?.place && (
          <HeldTicket print={printOf(inHand, context)} place={held.place} axis={axis} />
        )}
      </div>
    </section>
  );
}

const startOf = (ticket: Ticket): number => (ticket.assignment ? placeOf(ticket.assignment).startsAt : 0);

function LaneTicket(props: FloorViewProps & { readonly ticket: Ticket }) {
  const { ticket, axis, context, held } = props;
  if (!ticket.assignment) return null;
  const place = placeOf(ticket.assignment);
  // Work that goes on another day is cut at the ends of the rule; opened, its ticket tells all of it.
  const left = Math.max(0, percent(axis, place.startsAt));
  return (
    <FloorTicket
      ticket={ticket}
      print={printOf(ticket, context)}
      left={left}
      width={Math.min(100, percent(axis, place.endsAt)) - left}
      isHeld={held?.workOrderId === ticket.workOrderId}
      isTabStop={props.tabStop === ticket.workOrderId}
      hand={props.hand}
      onOpen={props.onOpen}
      onFocus={props.onFocus}
    />
  );
}

export function BayHead({ bay }: { readonly bay: Bay }) {
  const people = bay.clockedOn.map((entry) => entry.displayName).join(', ');
  const out = bay.outOfServiceReason;
  const kind = bayWords(bay);
  return (
    <div className="bay" title={`${bay.name}: ${kind}`}>
      <span className="no">{bay.number}</span>
      <div>
        <b>{out === null ? people || 'Nobody here' : 'Out of service'}</b>
        <span className="name">{out ?? bay.name}</span>
        <span className="kind">{kind}</span>
      </div>
    </div>
  );
}
