import type { Ticket } from '../api/types.js';
import { MarkWithWord } from '../ui/marks.js';
import { LookSign } from '../ui/signs.js';
import { isOnDay, placeOf } from './axis.js';
import { belongsInTray, isUnderWayWithoutBay, vehicleWords } from './look.js';
import { placeWords, printOf } from './print.js';
import { ReservedRows } from './reserved.js';
import { BayHead, type FloorViewProps } from './time-view.js';
import { clockTime } from './zone-time.js';

type ListProps = Pick<FloorViewProps, 'board' | 'context' | 'onOpen'>;

/** The same facts as on the board, to be read from top to bottom: bay by bay, then what can start. */
export function ListView(props: ListProps) {
  const { board } = props;
  const unplaced = board.tickets.filter((ticket) => belongsInTray(ticket, board) && !isOnDay(ticket, board));
  const adrift = board.tickets.filter(isUnderWayWithoutBay);
  return (
    <main className="list" aria-label="Bays, one after the other">
      {board.bays.map((bay) => {
        const tickets = board.tickets
          .filter((ticket) => ticket.assignment?.bayId === bay.id && isOnDay(ticket, board))
          .sort((a, b) => startOf(a) - startOf(b));
        return (
          <section
            key={bay.id}
            className={bay.outOfServiceReason === null ? '' : 'out'}
            aria-label={`Bay ${bay.number}, ${bay.name}`}
          >
            <BayHead bay={bay} />
            <Rows tickets={tickets} empty="Nothing planned in this bay." {...props} />
            <ReservedRows board={board} bayId={bay.id} />
          </section>
        );
      })}
      <section className="startable" aria-labelledby="list-startable">
        <h2 id="list-startable">Can start now, no bay on this day</h2>
        <Rows tickets={unplaced} empty="Nothing is waiting for a bay." {...props} />
      </section>
      {adrift.length > 0 && (
        <section className="startable" aria-labelledby="list-adrift">
          <h2 id="list-adrift">No bay: under way, or done and not checked</h2>
          <Rows tickets={adrift} empty="" {...props} />
        </section>
      )}
    </main>
  );
}

const startOf = (ticket: Ticket): number => (ticket.assignment ? placeOf(ticket.assignment).startsAt : 0);

function Rows({
  tickets,
  empty,
  board,
  context,
  onOpen,
}: ListProps & { readonly tickets: readonly Ticket[]; readonly empty: string }) {
  if (tickets.length === 0) return <p className="empty">{empty}</p>;
  return (
    <ol>
      {tickets.map((ticket) => (
        <li key={ticket.workOrderId}>
          <Row {...{ ticket, board, context, onOpen }} />
        </li>
      ))}
    </ol>
  );
}

function Row({ ticket, board, context, onOpen }: ListProps & { readonly ticket: Ticket }) {
  const print = printOf(ticket, context);
  const { zone } = context;
  const placed = isOnDay(ticket, board);
  const place = placed && ticket.assignment ? placeOf(ticket.assignment) : null;
  const planned = ticket.assignment && !placed ? placeWords(ticket, context) : '';
  return (
    <button
      type="button"
      className={`row ${print.look}`}
      aria-haspopup="dialog"
      onClick={() => onOpen(ticket.workOrderId)}
    >
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
            {print.word}
            {placed && belongsInTray(ticket, board) ? ', can start now' : ''}{' '}
            {print.past !== '' && <i className="past">{print.past}</i>}
          </span>
        </span>
        <b>{vehicleWords(ticket)}</b>
        <span>{ticket.title}</span>
        {print.extra !== '' && <span className="x">{print.extra}</span>}
        {planned !== '' && <span className="x">Planned: {planned}</span>}
        {print.unsafe && <MarkWithWord mark="unsafe" />}
      </span>
      {print.clocked > 0 && <span className="clk" style={{ width: `${print.clocked * 100}%` }} />}
    </button>
  );
}
