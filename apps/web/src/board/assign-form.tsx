import { type SubmitEvent, useState } from 'react';
import type { ApiFault } from '../api/fault.js';
import type { Bay, Board, Technician, Ticket } from '../api/types.js';
import { Field, fieldFault } from '../ui/field.js';
import { Refusal, refusalWords } from '../ui/refusal.js';
import { TextField } from '../ui/text-field.js';
import { useFirstField } from '../ui/use-first-field.js';
import type { AfterAct } from './act-bar.js';
import { type Place, QUARTER, placeIn } from './axis.js';
import { type AssignmentWish, assign, changeAssignment } from './floor-acts.js';
import { instantOf } from './instant-of.js';
import { bayWords } from './look.js';
import { lengthOf } from './print.js';
import { clockTime } from './zone-time.js';

interface AssignFormProps {
  readonly ticket: Ticket;
  readonly board: Board;
  readonly wish: Place | undefined;
  readonly after: AfterAct;
  readonly onDone: () => void;
}
interface Draft {
  readonly bayId: string;
  readonly technicianId: string;
  /** On the shop's wall, `09:15`. */
  readonly start: string;
  readonly hours: string;
}

/** What the form starts from: the place wished for, the one it has, or the first bay at the next quarter hour. */
function firstDraft({ ticket, board, wish }: AssignFormProps): Draft {
  const place = wish ?? placeIn(ticket.assignment);
  const soon = Math.ceil(Math.max(Date.parse(board.now), Date.parse(board.dayStartsAt)) / QUARTER) * QUARTER;
  const bay = board.bays.find((one) => (place ? one.id === place.bayId : one.outOfServiceReason === null));
  const seconds = place ? (place.endsAt - place.startsAt) / 1000 : lengthOf(ticket);
  const technicians = [ticket.assignment, ticket.claim, bay?.clockedOn[0]].map((one) => one?.technicianId);
  return {
    bayId: bay?.id ?? '',
    technicianId: technicians.find((id) => id !== undefined) ?? '',
    start: clockTime(place?.startsAt ?? soon, board.timeZone),
    hours: String(Math.round(seconds / 36) / 100),
  };
}

function wishOf(draft: Draft, board: Board): AssignmentWish {
  const startsAt = instantOf(board.day, draft.start, board.timeZone);
  const endsAt = startsAt + Math.round(Number(draft.hours) * 3600) * 1000;
  return { bayId: draft.bayId, technicianId: draft.technicianId, startsAt, endsAt };
}

/** Bay, technician and time by hand: the way to plan without dragging. Times are the shop's, on the day shown. */
export function AssignForm(props: AssignFormProps) {
  const { ticket, board, after, onDone } = props;
  const form = useFirstField();
  const [draft, setDraft] = useState(() => firstDraft(props));
  const [fault, setFault] = useState<ApiFault | null>(null);
  const [busy, setBusy] = useState(false);

  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    const wish = wishOf(draft, board);
    const act = ticket.assignment ? changeAssignment(ticket.assignment, wish) : assign(ticket, wish);
    setBusy(true);
    const refused = await after(act, `${ticket.workOrderNumber} is planned for ${draft.start}.`);
    setBusy(false);
    setFault(refused);
    if (!refused) onDone();
  };
  return (
    <form ref={form} className="assign-form" onSubmit={(event) => void submit(event)}>
      <Refusal detail={fault ? refusalWords(fault) : undefined} />
      <AssignFields
        board={board}
        draft={draft}
        fault={fault}
        onChange={(change) => setDraft({ ...draft, ...change })}
      />
      <div className="acts">
        <button type="submit" className="button main" disabled={busy}>
          {ticket.assignment ? 'Change the assignment' : 'Assign'}
        </button>
        <button type="button" className="button" onClick={onDone}>
          Back
        </button>
      </div>
    </form>
  );
}

interface AssignFieldsProps {
  readonly board: Board;
  readonly draft: Draft;
  readonly fault: ApiFault | null;
  readonly onChange: (change: Partial<Draft>) => void;
}

function AssignFields({ board, draft, fault, onChange }: AssignFieldsProps) {
  const wrong = (pointer: string): string | undefined => fieldFault(fault?.fields, pointer);
  return (
    <div className="fields">
      <Field label="Bay" fault={wrong('/bayId')}>
        {(attributes) => (
          <select
            {...attributes}
            required
            value={draft.bayId}
            onChange={(event) => onChange({ bayId: event.target.value })}
          >
            {board.bays.map(bayOption)}
          </select>
        )}
      </Field>
      <Field label="Technician" fault={wrong('/technicianId')}>
        {(attributes) => (
          <select
            {...attributes}
            required
            value={draft.technicianId}
            onChange={(event) => onChange({ technicianId: event.target.value })}
          >
            <option value="">Choose</option>
            {board.technicians.map(technicianOption)}
          </select>
        )}
      </Field>
      <TextField
        label="Start"
        type="time"
        step={300}
        value={draft.start}
        fault={wrong('/startsAt')}
        onText={(start) => onChange({ start })}
      />
      <TextField
        label="Hours on the bay"
        type="number"
        min={0.05}
        max={24}
        step={0.01}
        value={draft.hours}
        fault={wrong('/endsAt')}
        onText={(hours) => onChange({ hours })}
      />
    </div>
  );
}

const bayOption = (bay: Bay) => (
  <option key={bay.id} value={bay.id} disabled={bay.outOfServiceReason !== null}>
    {`${bay.number}, ${bay.outOfServiceReason === null ? bayWords(bay) : 'out of service'}`}
  </option>
);
const technicianOption = (technician: Technician) => (
  <option key={technician.id} value={technician.id}>
    {[technician.displayName, ...technician.skills].join(', ')}
  </option>
);
