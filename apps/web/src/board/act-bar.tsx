import { type ReactNode, useState } from 'react';
import type { ApiFault } from '../api/fault.js';
import type { Ticket } from '../api/types.js';
import { Refusal, refusalWords } from '../ui/refusal.js';
import type { Act } from './acts.js';
import {
  type Done,
  cancelAssignment,
  claim,
  clockOff,
  clockOn,
  finish,
  pause,
  releaseClaim,
} from './floor-acts.js';
import type { Person } from './may-plan.js';
import type { PrintContext } from './print.js';
import { ReasonForm } from './reason-form.js';
import { inShopTime } from './zone-time.js';

/** Runs an act, reads the board again, and says what was done; hands back a refusal for the dialog to show. */
export type AfterAct = (act: Done, words: string) => Promise<ApiFault | null>;

interface ActBarProps {
  readonly ticket: Ticket;
  readonly acts: readonly Act[];
  readonly person: Person;
  readonly after: AfterAct;
  readonly context: PrintContext;
  readonly children: ReactNode;
}
interface Offer {
  readonly act: Act;
  readonly label: string;
  readonly main?: true;
  /** What to do at once; without it, a reason is asked for first. */
  readonly run?: () => Done;
  readonly words: string;
}

/** In the order of the buttons: the one that moves the work on comes first. */
function offersFor(ticket: Ticket, mine: boolean): Offer[] {
  const n = ticket.workOrderNumber;
  const { assignment } = ticket;
  return [
    { act: 'claim', label: 'Claim', main: true, run: () => claim(ticket), words: `${n} is yours.` },
    {
      act: 'clock-on',
      label: 'Clock on',
      main: true,
      run: () => clockOn(ticket),
      words: `You are on the clock for ${n}.`,
    },
    { act: 'finish', label: 'Finish', main: true, run: () => finish(ticket), words: `${n} is finished.` },
    { act: 'pause', label: 'Pause', words: `${n} paused.` },
    {
      act: 'clock-off',
      label: 'Clock off',
      run: clockOff,
      words: `You are off the clock. ${n} stays yours.`,
    },
    {
      act: 'release',
      label: mine ? 'Release my claim' : 'Release the claim',
      words: `The claim on ${n} is released.`,
    },
    ...(assignment
      ? [
          {
            act: 'cancel-assignment' as const,
            label: 'Cancel the assignment',
            run: () => cancelAssignment(assignment),
            words: `${n} has no bay and time any more.`,
          },
        ]
      : []),
  ];
}

/** The acts that the signed-in person may do with a ticket. */
export function ActBar({ ticket, acts, person, after, context, children }: ActBarProps) {
  const [asking, setAsking] = useState<Offer | null>(null);
  const [busy, setBusy] = useState(false);
  const [fault, setFault] = useState<ApiFault | null>(null);
  const mine = ticket.claim?.technicianId === person.id;

  const run = async (act: Done, words: string): Promise<void> => {
    setBusy(true);
    setFault(null);
    setFault(await after(act, words));
    setBusy(false);
    setAsking(null);
  };
  const press = (offer: Offer): void => {
    if (offer.run) void run(offer.run(), offer.words);
    else setAsking(offer);
  };
  const pausing = asking?.act === 'pause';
  return (
    <>
      <Refusal detail={fault ? inShopTime(refusalWords(fault), context.zone, context.day) : undefined} />
      {asking ? (
        <ReasonForm
          kind={pausing ? 'pause' : 'release'}
          needed={pausing || !mine}
          busy={busy}
          onCancel={() => setAsking(null)}
          onReason={(reason) =>
            void run(pausing ? pause(reason) : releaseClaim(ticket, reason), asking.words)
          }
        />
      ) : (
        <div className="acts">
          <ActButtons
            offers={offersFor(ticket, mine).filter((offer) => acts.includes(offer.act))}
            busy={busy}
            onPress={press}
          />
          {children}
        </div>
      )}
    </>
  );
}

interface ActButtonsProps {
  readonly offers: readonly Offer[];
  readonly busy: boolean;
  readonly onPress: (offer: Offer) => void;
}

const ActButtons = ({ offers, busy, onPress }: ActButtonsProps): ReactNode =>
  offers.map((offer) => (
    <button
      key={offer.act}
      type="button"
      className={offer.main ? 'button main' : 'button'}
      disabled={busy}
      onClick={() => onPress(offer)}
    >
      {offer.label}
    </button>
  ));
