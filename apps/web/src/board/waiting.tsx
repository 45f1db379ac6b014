import type { Ticket } from '../api/types.js';
import { placeOf } from './axis.js';
import { bookHours, holdWord, isWaiting, vehicleWords } from './look.js';
import { placeWords } from './print.js';
import type { FloorViewProps } from './time-view.js';
import { inShopTime } from './zone-time.js';

const byTurn = (a: Ticket, b: Ticket): number => turn(a) - turn(b);
const turn = (ticket: Ticket): number => (ticket.assignment ? placeOf(ticket.assignment).startsAt : 0);

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
            <button
              type="button"
              className="waiting-row"
              aria-haspopup="dialog"
              onClick={() => onOpen(ticket.workOrderId)}
            >
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
                    <b>{holdWord[hold.kind]}:</b> {inShopTime(hold.detail, context.zone, context.day)}
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
