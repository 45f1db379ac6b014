import { useState } from 'react';
import type { Board, Ticket } from '../api/types.js';
import { Dialog } from '../ui/dialog.js';
import { LookSign } from '../ui/signs.js';
import { actsFor } from './acts.js';
import { ActBar, type AfterAct } from './act-bar.js';
import { AssignForm } from './assign-form.js';
import type { Place } from './axis.js';
import { type Person, mayPlan } from './may-plan.js';
import { isMovable } from './look.js';
import { type PrintContext, printOf } from './print.js';
import { TicketFacts } from './ticket-facts.js';
import { useAwaited } from './use-awaited.js';
import { useContingencySlip } from './use-contingencies.js';
import { useWhyHere } from './use-why-here.js';
import { dayOf } from './zone-time.js';

export interface TicketDialogProps {
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
  const ContingencySlip = useContingencySlip();
  const WhyHere = useWhyHere();
  const Awaited = useAwaited(ticket, person);
  const wall = { zone: context.zone, today: dayOf(Date.parse(board.now), context.zone) };
  const acts = actsFor(ticket, person);
  const { look, word, number } = printOf(ticket, context);
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
        <LookSign look={look} /> {word}
      </p>
      <TicketFacts ticket={ticket} context={context} />
      {Awaited && <Awaited {...{ ticket, wall, after }} />}
      {WhyHere && <WhyHere {...{ ticket, person, after }} />}
      {ContingencySlip && <ContingencySlip {...{ ticket, person, context, after }} />}
      {assigning && planning ? (
        <AssignForm
          ticket={ticket}
          board={board}
          wish={props.wish}
          after={after}
          onDone={() => setAssigning(false)}
        />
      ) : (
        <ActBar {...{ ticket, acts, after, person, context }}>
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
          {mayPlan(person) && (
            <a className="button" href={`/estimate?repairOrder=${ticket.repairOrderId}`}>
              Open the estimate
            </a>
          )}
        </ActBar>
      )}
    </Dialog>
  );
}
