import { memo } from 'react';
import type { Ticket } from '../api/types.js';
import { TicketFace, type TicketPrint } from '../ui/ticket.js';
import { type Axis, type Place, percent } from './axis.js';
import type { FloorHand } from './hand.js';

interface FloorTicketProps {
  readonly ticket: Ticket;
  readonly print: TicketPrint;
  /** Where it lies on the rule, in percent of its length; the tray lays tickets out itself. */
  readonly left?: number;
  readonly width: number;
  readonly isHeld: boolean;
  readonly isTabStop: boolean;
  readonly hand: FloorHand | null;
  readonly onOpen: (workOrderId: string) => void;
  readonly onFocus: (workOrderId: string) => void;
}

/** Prints change with the clock, tickets only with the board: compare what is printed. */
const samePrint = (a: TicketPrint, b: TicketPrint): boolean =>
  (Object.keys(a) as (keyof TicketPrint)[]).every((key) => a[key] === b[key]);

export const FloorTicket = memo(
  function FloorTicket(props: FloorTicketProps) {
    const { ticket, print, hand } = props;
    return (
      <button
        type="button"
        className={`tk ${print.look}${props.isHeld ? ' ghost' : ''}`}
        style={{ left: props.left === undefined ? undefined : `${props.left}%`, width: `${props.width}%` }}
        data-ticket={ticket.workOrderId}
        title={`${print.number}, ${print.vehicle}, ${print.title}${print.extra === '' ? '' : `. ${print.extra}`}`}
        tabIndex={props.isTabStop ? 0 : -1}
        aria-pressed={props.isHeld ? true : undefined}
        aria-haspopup="dialog"
        onPointerDown={(event) => hand?.onPointerDown(event, ticket)}
        onContextMenu={(event) =>
          event.nativeEvent instanceof PointerEvent &&
          event.nativeEvent.pointerType === 'touch' &&
          event.preventDefault()
        }
        onKeyDown={(event) => hand?.onTicketKey(event, ticket)}
        onFocus={() => props.onFocus(ticket.workOrderId)}
        onClick={() => !hand?.swallowsClick() && props.onOpen(ticket.workOrderId)}
      >
        <TicketFace print={print} />
      </button>
    );
  },
  (a, b) =>
    a.ticket === b.ticket &&
    a.left === b.left &&
    a.width === b.width &&
    a.hand === b.hand &&
    a.isHeld === b.isHeld &&
    a.isTabStop === b.isTabStop &&
    samePrint(a.print, b.print),
);

/** The ticket in the hand, drawn where it would lie. Not a control: the hand's keys and taps move it. */
export function HeldTicket({
  print,
  place,
  axis,
}: {
  readonly print: TicketPrint;
  readonly place: Place;
  readonly axis: Axis;
}) {
  const left = percent(axis, place.startsAt);
  return (
    <div
      className={`tk lift ${print.look}`}
      aria-hidden="true"
      style={{ left: `${left}%`, width: `${percent(axis, place.endsAt) - left}%` }}
    >
      <TicketFace print={print} />
    </div>
  );
}
