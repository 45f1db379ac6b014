import { type ReactNode, useId } from 'react';
import type { Ticket } from '../api/types.js';
import { percent, placeOf } from './axis.js';
import { FloorTicket } from './floor-ticket.js';
import { belongsInTray, isUnderWayWithoutBay } from './look.js';
import { lengthOf, placeWords, printOf } from './print.js';
import type { FloorViewProps } from './time-view.js';

/** Tickets without a place first, then by the time they are planned for. */
const byTurn = (a: Ticket, b: Ticket): number => turn(a) - turn(b);
const turn = (ticket: Ticket): number => (ticket.assignment ? placeOf(ticket.assignment).startsAt : 0);

/** What a technician could start this minute; and what was started without a bay, so that it lies somewhere. */
export function Tray(props: FloorViewProps) {
  const { board } = props;
  const startable = board.tickets.filter((ticket) => belongsInTray(ticket, board)).sort(byTurn);
  const adrift = board.tickets.filter(isUnderWayWithoutBay);
  return (
    <>
      <Shelf
        {...props}
        tickets={startable}
        heading="Can start now"
        words={startable.length === 0 ? 'Nothing' : 'Drawn at book length, short ones wider'}
      >
        {startable.length === 0 && (
          <p className="empty">Every released work order is on the clock, held or done.</p>
        )}
      </Shelf>
      {adrift.length > 0 && (
        <Shelf {...props} tickets={adrift} heading="No bay" words="Under way, or done and not checked" />
      )}
    </>
  );
}

interface ShelfProps extends FloorViewProps {
  readonly tickets: readonly Ticket[];
  readonly heading: string;
  readonly words: string;
  readonly children?: ReactNode;
}

/** Tickets side by side under a heading, drawn at book length on the scale of the board. */
function Shelf(props: ShelfProps) {
  const { axis, context, tickets } = props;
  const heading = useId();
  return (
    <section className="below tray" aria-labelledby={heading}>
      <h2 id={heading}>
        {props.heading}
        <small>{props.words}</small>
      </h2>
      <div className="tray-tickets">
        {props.children}
        {tickets.map((ticket) => {
          const print = printOf(ticket, context);
          const planned = ticket.assignment ? placeWords(ticket, context) : '';
          return (
            <FloorTicket
              key={ticket.workOrderId}
              ticket={ticket}
              print={{ ...print, extra: ticket.claim ? print.extra : planned }}
              width={percent(axis, axis.from + lengthOf(ticket) * 1000)}
              isHeld={props.held?.workOrderId === ticket.workOrderId}
              isTabStop={props.tabStop === ticket.workOrderId}
              hand={props.hand}
              onOpen={props.onOpen}
              onFocus={props.onFocus}
            />
          );
        })}
      </div>
    </section>
  );
}
