import { type ReactNode, useState } from 'react';
import type { ApiFault } from '../api/fault.js';
import type { Ticket } from '../api/types.js';
import { Refusal, refusalWords } from '../ui/refusal.js';
import type { Act, Person } from './acts.js';
import { type Done, cancelAssignment, claim, clockOff, clockOn, finish, pause, releaseClaim } from './floor-acts.js';
import { ReasonForm } from './reason-form.js';

/** Runs an act, reads the board again, and says what was done; hands back a refusal for the dialog to show. */
export type AfterAct = (act: Done, words: string) => Promise<ApiFault | null>;

interface ActBarProps {
  readonly ticket: Ticket;
  readonly acts: readonly Act[];
  readonly person: Person;
  readonly after: AfterAct;
  readonly children: ReactNode;
}

/** The acts that the signed-in person may do with a ticket; the one that moves the work on comes first. */
export function ActBar({ ticket, acts, person, after, children }: ActBarProps) {
  const [asking, setAsking] = useState<'pause' | 'release' | null>(null);
  const [busy, setBusy] = useState(false);
  const [fault, setFault] = useState<ApiFault | null>(null);

  const run = (act: () => Done, words: string) => async (): Promise<void> => {
    setBusy(true);
    setFault(null);
    setFault(await after(act(), words));
    setBusy(false);
    setAsking(null);
  };
  const number = ticket.workOrderNumber;
  const mine = ticket.claim?.technicianId === person.id;
  const button = (act: Act, label: string, onClick: () => unknown, kind = 'button'): ReactNode =>
    acts.includes(act) && (
      <button type="button" className={kind} disabled={busy} onClick={() => void onClick()}>
        {label}
      </button>
    );
  const assignment = ticket.assignment;

  if (asking !== null) {
    return (
      <>
        <Refusal detail={fault ? refusalWords(fault) : undefined} />
        <ReasonForm
          kind={asking}
          needed={asking === 'pause' || !mine}
          busy={busy}
          onCancel={() => setAsking(null)}
          onReason={(reason) =>
            void (asking === 'pause'
              ? run(() => pause(reason), `${number} paused.`)()
              : run(() => releaseClaim(ticket, reason), `The claim on ${number} is released.`)())
          }
        />
      </>
    );
  }
  return (
    <>
      <Refusal detail={fault ? refusalWords(fault) : undefined} />
      <div className="acts">
        {button('claim', 'Claim', run(() => claim(ticket), `${number} is yours.`), 'button main')}
        {button('clock-on', 'Clock on', run(() => clockOn(ticket), `You are on the clock for ${number}.`), 'button main')}
        {button('finish', 'Finish', run(() => finish(ticket), `${number} is finished.`), 'button main')}
        {button('pause', 'Pause', () => setAsking('pause'))}
        {button('clock-off', 'Clock off', run(clockOff, `You are off the clock. ${number} stays yours.`))}
        {button('release', mine ? 'Release my claim' : 'Release the claim', () => setAsking('release'))}
        {children}
        {assignment &&
          button('cancel-assignment', 'Cancel the assignment', run(() => cancelAssignment(assignment), `${number} has no bay and time any more.`))}
      </div>
    </>
  );
}
