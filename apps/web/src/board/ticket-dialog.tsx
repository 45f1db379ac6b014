import { useState } from 'react';
import type { Board, Ticket } from '../api/types.js';
import { Dialog } from '../ui/dialog.js';
import { lookWord } from '../ui/look-word.js';
import { LookSign } from '../ui/signs.js';
import { type Person, actsFor, mayPlan } from './acts.js';
import { ActBar, type AfterAct } from './act-bar.js';
import { AssignForm } from './assign-form.js';
import type { Place } from './axis.js';
import { isMovable } from './look.js';
import { type PrintContext, printOf } from './print.js';
import { TicketFacts } from './ticket-facts.js';

interface TicketDialogProps {
  readonly ticket: Ticket;
  readonly board: Board;
  readonly context: PrintContext;
  readonly person: Person;
  /** Set when the ticket was put down in a place and needs its technician still. */
  readonly wish: Place | undefined;
  readonly canLift: boolean;
  readonly after: AfterAct;
  readonly onLift: (ticket: Ticket) => void;
  readonly onClose: () => void;
}

/** A ticket opened: everything printed on it in full, and what the person who reads it may do with it. */
export function TicketDialog(props: TicketDialogProps) {
  const { ticket, board, context, person, after, onClose } = props;
  const [assigning, setAssigning] = useState(props.wish !== undefined);
  const acts = actsFor(ticket, person);
  const { look, number } = printOf(ticket, context);
  const planning = acts.includes('assign') || acts.includes('change-assignment');
  return (
    <Dialog
      className="ticket-dialog"
      onClose={onClose}
      title={
        <>
          <span className="num">{number}</span> {ticket.title}
        </>
      }
    >
      <p className={`state-line ${look}`}>
        <LookSign look={look} /> {lookWord[look]}
      </p>
      <TicketFacts ticket={ticket} context={context} />
      {assigning && planning ? (
        <AssignForm
          ticket={ticket}
          board={board}
          wish={props.wish}
          after={after}
          onDone={() => setAssigning(false)}
        />
      ) : (
        <ActBar ticket={ticket} acts={acts} after={after} person={person}>
          {planning && (
            <button type="button" className="button" onClick={() => setAssigning(true)}>
              {ticket.assignment ? 'Change bay, time or technician' : 'Assign to a bay'}
            </button>
          )}
          {props.canLift && mayPlan(person) && isMovable(ticket) && (
            <button type="button" className="button" onClick={() => props.onLift(ticket)}>
              Pick up and move
            </button>
          )}
        </ActBar>
      )}
    </Dialog>
  );
}
