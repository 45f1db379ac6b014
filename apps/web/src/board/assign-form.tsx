import { type FormEvent, useState } from 'react';
import type { ApiFault } from '../api/fault.js';
import type { Board, Ticket } from '../api/types.js';
import { Field, fieldFault } from '../ui/field.js';
import { Refusal, refusalWords } from '../ui/refusal.js';
import type { AfterAct } from './act-bar.js';
import { type Place, placeIn } from './axis.js';
import { assign, changeAssignment } from './floor-acts.js';
import { bayWords } from './look.js';
import { lengthOf } from './print.js';
import { clockTime, instantOf } from './zone-time.js';

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
  readonly start: string;
  readonly hours: string;
}

const QUARTER_HOUR = 0.25;

/** What the form starts from: the place wished for, the one it has, or the first bay at the next quarter hour. */
function firstDraft({ ticket, board, wish }: AssignFormProps): Draft {
  const place = wish ?? placeIn(ticket.assignment);
  const next = Math.ceil(Math.max(Date.parse(board.now), Date.parse(board.dayStartsAt)) / 900_000) * 900_000;
  const bay = board.bays.find((candidate) => candidate.id === place?.bayId) ?? board.bays.find((b) => b.outOfServiceReason === null);
  const seconds = place ? (place.endsAt - place.startsAt) / 1000 : lengthOf(ticket);
  return {
    bayId: bay?.id ?? '',
    technicianId:
      ticket.assignment?.technicianId ?? ticket.claim?.technicianId ?? bay?.clockedOn[0]?.technicianId ?? '',
    start: clockTime(place?.startsAt ?? next, board.timeZone),
    hours: String(Math.max(QUARTER_HOUR, Math.round(seconds / 36) / 100)),
  };
}

/** Bay, technician and time by hand: the way to plan without dragging. Times are the shop's, on the day shown. */
export function AssignForm(props: AssignFormProps) {
  const { ticket, board, after, onDone } = props;
  const [draft, setDraft] = useState(() => firstDraft(props));
  const [fault, setFault] = useState<ApiFault | null>(null);
  const [busy, setBusy] = useState(false);
  const set = (change: Partial<Draft>): void => setDraft((before) => ({ ...before, ...change }));
  const number = ticket.workOrderNumber;

  const submit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const startsAt = instantOf(board.day, draft.start, board.timeZone);
    const endsAt = startsAt + Math.round(Number(draft.hours) * 3600) * 1000;
    const wish = { bayId: draft.bayId, technicianId: draft.technicianId, startsAt, endsAt };
    setBusy(true);
    const { assignment } = ticket;
    const refused = await after(
      assignment ? changeAssignment(assignment, wish) : assign(ticket, wish),
      `${number} is planned for ${draft.start}.`,
    );
    setBusy(false);
    setFault(refused);
    if (!refused) onDone();
  };

  return (
    <form className="assign-form" onSubmit={(event) => void submit(event)}>
      <Refusal detail={fault ? refusalWords(fault) : undefined} />
      <div className="fields">
        <Field label="Bay" fault={fieldFault(fault?.fields, '/bayId')}>
          {(attributes) => (
            <select {...attributes} required value={draft.bayId} onChange={(event) => set({ bayId: event.target.value })}>
              {board.bays.map((bay) => (
                <option key={bay.id} value={bay.id} disabled={bay.outOfServiceReason !== null}>
                  {`${bay.number}, ${bay.outOfServiceReason === null ? bayWords(bay) : 'out of service'}`}
                </option>
              ))}
            </select>
          )}
        </Field>
        <Field label="Technician" fault={fieldFault(fault?.fields, '/technicianId')}>
          {(attributes) => (
            <select {...attributes} required value={draft.technicianId} onChange={(event) => set({ technicianId: event.target.value })}>
              <option value="">Choose</option>
              {board.technicians.map((technician) => (
                <option key={technician.id} value={technician.id}>
                  {[technician.displayName, ...technician.skills].join(', ')}
                </option>
              ))}
            </select>
          )}
        </Field>
        <Field label="Start" fault={fieldFault(fault?.fields, '/startsAt')}>
          {(attributes) => (
            <input {...attributes} type="time" step={900} required value={draft.start} onChange={(event) => set({ start: event.target.value })} />
          )}
        </Field>
        <Field label="Hours on the bay" fault={fieldFault(fault?.fields, '/endsAt')}>
          {(attributes) => (
            <input {...attributes} type="number" min={0.05} max={24} step={0.01} required value={draft.hours} onChange={(event) => set({ hours: event.target.value })} />
          )}
        </Field>
      </div>
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
