import type { ReactNode } from 'react';
import type { Ticket } from '../api/types.js';
import { MarkWithWord } from '../ui/marks.js';
import { bookHours, bookSeconds, clockedSeconds, holdWord, isDone, tenths, tenthsUp } from './look.js';
import { type PrintContext, placeWords } from './print.js';
import { clockTime, inShopTime } from './zone-time.js';

interface FactsProps {
  readonly ticket: Ticket;
  readonly context: PrintContext;
}

export function TicketFacts({ ticket, context }: FactsProps) {
  const { zone } = context;
  const place = placeWords(ticket, context);
  return (
    <>
      <dl className="facts">
        <Fact name="Repair order">
          <span className="num">{ticket.repairOrderNumber}</span>
        </Fact>
        <Fact name="Vehicle">
          {ticket.vehicle.label}
          {ticket.vehicle.plate && <span className="plate">{ticket.vehicle.plate}</span>}
        </Fact>
        <Fact name="Place">
          {place.charAt(0).toUpperCase() + place.slice(1)}
          {ticket.assignment && `, ${ticket.assignment.technicianName}`}
        </Fact>
        <Fact name="Claimed by">
          {ticket.claim
            ? `${ticket.claim.displayName}, since ${clockTime(Date.parse(ticket.claim.claimedAt), zone)}`
            : 'Nobody'}
        </Fact>
        {ticket.promisedAt !== null && (
          <Fact name="Promised">{inShopTime(ticket.promisedAt, zone, context.day)}</Fact>
        )}
      </dl>
      <Hours ticket={ticket} context={context} />
      {ticket.holds.length > 0 && (
        <section className="holds">
          <h3>Held</h3>
          <ul>
            {ticket.holds.map((hold) => (
              <li key={`${hold.kind} ${hold.detail}`}>
                <b>{holdWord[hold.kind]}:</b> {inShopTime(hold.detail, zone, context.day)}
              </li>
            ))}
          </ul>
        </section>
      )}
      <Cautions ticket={ticket} />
    </>
  );
}

function Fact({ name, children }: { readonly name: string; readonly children: ReactNode }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}

/** The book rule with its ticks, clocked time laid against it, and what sticks out ribbed. */
function Hours({ ticket, context }: FactsProps) {
  const clocked = clockedSeconds(ticket, context.sinceBoard);
  const book = bookSeconds(ticket);
  const longest = Math.max(clocked, book, 1);
  const share = (seconds: number): string => `${(seconds / longest) * 100}%`;
  return (
    <section className="hours">
      <div className="vernier" aria-hidden="true" style={{ ['--quarters' as string]: book / 900 }}>
        <i className="book" style={{ width: share(book) }} />
        <i className="strip" style={{ width: share(Math.min(clocked, book)) }} />
        {clocked > book && <i className="ribs" style={{ left: share(book), width: share(clocked - book) }} />}
      </div>
      <p>
        <b className="num">{bookHours(ticket.bookHundredths)} h</b> book,{' '}
        <b className="num carbon">{tenths(clocked)} h</b> clocked
        {clocked > book && <b className="carbon">, {tenthsUp(clocked - book)} h past book</b>}
      </p>
    </section>
  );
}

function Cautions({ ticket }: { readonly ticket: Ticket }) {
  if (isDone(ticket) || (ticket.cautions.length === 0 && !ticket.unsafe)) return null;
  return (
    <section className="cautions">
      <h3>Before you start</h3>
      {ticket.unsafe && (
        <p>
          <MarkWithWord mark="unsafe" /> The vehicle has a finding that says it must not be driven.
        </p>
      )}
      {ticket.cautions.length > 0 && (
        <ul>
          {ticket.cautions.map((caution) => (
            <li key={caution}>{caution}</li>
          ))}
        </ul>
      )}
      <p className="hint">The vehicle maker’s procedure and local codes come first.</p>
    </section>
  );
}
