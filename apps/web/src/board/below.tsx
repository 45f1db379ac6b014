import type { Ticket } from '../api/types.js';
import { percent, placeOf } from './axis.js';
import { FloorTicket } from './floor-ticket.js';
import { belongsInTray, bookHours, holdWord, isWaiting, vehicleWords } from './look.js';
import { lengthOf, placeWords, printOf } from './print.js';
import type { FloorViewProps } from './time-view.js';

/** Tickets without a place first, then by the time they are planned for. */
const byTurn = (a: Ticket, b: Ticket): number => turn(a) - turn(b);
const turn = (ticket: Ticket): number => (ticket.assignment ? placeOf(ticket.assignment).startsAt : 0);

/** What a technician could start this minute, drawn at book length on the scale of the board. */
export function Tray(props: FloorViewProps) {
  const { axis, context } = props;
  const tickets = props.board.tickets.filter(belongsInTray).sort(byTurn);
  return (
    <section className="below tray" aria-labelledby="tray-heading">
      <h2 id="tray-heading">
        Can start now
        <small>{tickets.length === 0 ? 'Nothing' : 'Drawn at book length'}</small>
      </h2>
      <div className="tray-tickets">
        {tickets.length === 0 && <p className="empty">Every released work order is on the clock, held or done.</p>}
        {tickets.map((ticket) => {
          const print = printOf(ticket, context);
          const planned = ticket.assignment ? placeWords(ticket, context) : '';
          return (
            <FloorTicket
              key={ticket.workOrderId}
              ticket={ticket}
              print={{ ...print, extra: [planned, ticket.claim?.displayName].filter(Boolean).join(', ') }}
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

/** What cannot start, each with every reason in words. */
export function Waiting({ board, context, onOpen }: Pick<FloorViewProps, 'board' | 'context' | 'onOpen'>) {
  const tickets = board.tickets.filter(isWaiting).sort(byTurn);
  return (
    <section className="below waiting" aria-labelledby="waiting-heading">
      <h2 id="waiting-heading">
        Waiting
        <small>{tickets.length === 0 ? 'Nothing' : 'and for what'}</small>
      </h2>
      <ul>
        {tickets.length === 0 && <li className="empty">Nothing is held up.</li>}
        {tickets.map((ticket) => (
          <li key={ticket.workOrderId}>
            <button type="button" className="waiting-row" aria-haspopup="dialog" onClick={() => onOpen(ticket.workOrderId)}>
              <span className="num">{ticket.workOrderNumber}</span>
              <span className="what" title={`${vehicleWords(ticket)}, ${ticket.title}`}>
                <b>{ticket.vehicle.label}</b> {ticket.title}
                <small>
                  {bookHours(ticket.bookHundredths)} h, {placeWords(ticket, context)}
                </small>
              </span>
              <span className="why">
                {ticket.holds.map((hold) => (
                  <span key={`${hold.kind} ${hold.detail}`}>
                    <b>{holdWord[hold.kind]}</b> {hold.detail}
                  </span>
                ))}
              </span>
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
