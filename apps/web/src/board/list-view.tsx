import type { Ticket } from '../api/types.js';
import { type TicketPrint } from '../ui/ticket.js';
import { lookWord } from '../ui/look-word.js';
import { MarkWithWord } from '../ui/marks.js';
import { LookSign } from '../ui/signs.js';
import { placeOf } from './axis.js';
import { belongsInTray, vehicleWords } from './look.js';
import { printOf } from './print.js';
import { BayHead, type FloorViewProps } from './time-view.js';
import { clockTime } from './zone-time.js';

type ListProps = Pick<FloorViewProps, 'board' | 'context' | 'onOpen'>;

/** The same facts as on the board, to be read from top to bottom: bay by bay, then what can start. */
export function ListView(props: ListProps) {
  const { board } = props;
  const unplaced = board.tickets.filter((ticket) => belongsInTray(ticket) && !ticket.assignment);
  return (
    <main className="list" aria-label="Bays, one after the other">
      {board.bays.map((bay) => {
        const tickets = board.tickets
          .filter((ticket) => ticket.assignment?.bayId === bay.id)
          .sort((a, b) => startOf(a) - startOf(b));
        return (
          <section key={bay.id} className={bay.outOfServiceReason === null ? '' : 'out'} aria-label={`Bay ${bay.number}, ${bay.name}`}>
            <BayHead bay={bay} />
            <Rows tickets={tickets} empty="Nothing planned in this bay." {...props} />
          </section>
        );
      })}
      <section className="startable" aria-labelledby="list-startable">
        <h2 id="list-startable">Can start now, no bay yet</h2>
        <Rows tickets={unplaced} empty="Nothing is waiting for a bay." {...props} />
      </section>
    </main>
  );
}

const startOf = (ticket: Ticket): number => (ticket.assignment ? placeOf(ticket.assignment).startsAt : 0);

function Rows({ tickets, empty, context, onOpen }: ListProps & { readonly tickets: readonly Ticket[]; readonly empty: string }) {
  if (tickets.length === 0) return <p className="empty">{empty}</p>;
  return (
    <ol>
      {tickets.map((ticket) => (
        <li key={ticket.workOrderId}>
          <Row ticket={ticket} print={printOf(ticket, context)} zone={context.zone} onOpen={onOpen} />
        </li>
      ))}
    </ol>
  );
}

interface RowProps {
  readonly ticket: Ticket;
  readonly print: TicketPrint;
  readonly zone: string;
  readonly onOpen: (workOrderId: string) => void;
}

function Row({ ticket, print, zone, onOpen }: RowProps) {
  const place = ticket.assignment && placeOf(ticket.assignment);
  return (
    <button type="button" className={`row ${print.look}`} aria-haspopup="dialog" onClick={() => onOpen(ticket.workOrderId)}>
      <span className="when num">
        {place ? (
          <>
            {clockTime(place.startsAt, zone)}
            <small>{clockTime(place.endsAt, zone)}</small>
          </>
        ) : (
          print.hours
        )}
      </span>
      <span className="row-face">
        <span className="l1">
          <span className="num">{print.number}</span>
          <span className="state">
            <LookSign look={print.look} />
            {lookWord[print.look]} {print.past !== '' && <i className="past">{print.past}</i>}
          </span>
        </span>
        <b>{vehicleWords(ticket)}</b>
        <span>{ticket.title}</span>
        {print.extra !== '' && <span className="x">{print.extra}</span>}
        {print.unsafe && <MarkWithWord mark="unsafe" />}
      </span>
      {print.clocked > 0 && <span className="clk" style={{ width: `${print.clocked * 100}%` }} />}
    </button>
  );
}
