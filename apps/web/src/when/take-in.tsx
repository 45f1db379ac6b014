import { type SyntheticEvent, useState } from 'react';
import type { ApiFault } from '../api/fault.js';
import { Field, fieldFault } from '../ui/field.js';
import { TextArea } from '../ui/text-area.js';
import { TextField } from '../ui/text-field.js';
import { FoundList } from './found-list.js';
import { draftOf, takeIn, type TakeInDraft } from './take-in-draft.js';
import { UseForm } from './use-form.js';
import { useVehicles, wordsOf } from './vehicle-box.js';
import type { Reservation } from './when-types.js';

export interface TakeInProps {
  readonly one: Reservation;
  readonly onDone: (words: string) => void;
  readonly onFault: (fault: ApiFault | null) => void;
}

/** The car has come: its repair order is opened on what was kept for it, here and now. */
export function TakeIn(props: TakeInProps & { readonly onClose: () => void }) {
  const [isOpened, setIsOpened] = useState(false);
  const { one, onClose } = props;
  return (
    <div className="take-in">
      {isOpened ? <UseForm {...props} /> : <TakeInForm {...props} />}
      <div className="acts">
        <button type="button" className="plain" onClick={() => setIsOpened(!isOpened)}>
          {isOpened ? 'Open a repair order for it' : 'It has a repair order already'}
        </button>
        <button type="button" className="plain" onClick={onClose}>
          Not yet<span className="vh">: reservation {one.number}</span>
        </button>
      </div>
    </div>
  );
}

const AT_FIELDS = /^\/(concern|odometer|make|model|plate)/;

function TakeInForm({ one, onDone, onFault }: TakeInProps) {
  const [draft, setDraft] = useState(() => draftOf(one));
  const [fault, setFault] = useState<ApiFault | null>(null);
  const [busy, setBusy] = useState(false);
  const change = (part: Partial<TakeInDraft>): void => setDraft((before) => ({ ...before, ...part }));
  const wrong = (pointer: string): string | undefined => fieldFault(fault?.fields, pointer);
  const open = async (): Promise<void> => {
    setBusy(true);
    const answer = await takeIn(one, draft, change);
    setBusy(false);
    setFault(answer.ok ? null : answer.fault);
    if (answer.ok) onDone(`Repair order ${answer.value.number} was opened on reservation ${one.number}.`);
    const isBeside = !answer.ok && (answer.fault.fields ?? []).some(({ pointer }) => AT_FIELDS.test(pointer));
    onFault(answer.ok || isBeside ? null : answer.fault);
  };
  return (
    <form
      noValidate
      className="open-order"
      aria-label={`Repair order for reservation ${one.number}`}
      onSubmit={(event: SyntheticEvent) => {
        event.preventDefault();
        void open();
      }}
    >
      {one.vehicleId === null && <WhichVehicle {...{ one, draft, wrong }} onChange={change} />}
      <TextArea
        label="What is wrong, in their words"
        maxLength={2000}
        fault={wrong('/concern')}
        value={draft.concern}
        onText={(concern) => change({ concern })}
      />
      <Odometer {...{ draft, wrong }} onChange={change} />
      {fault?.code === 'odometer-went-back' && (
        <label className="tick">
          <input
            type="checkbox"
            checked={draft.confirmed}
            onChange={() => change({ confirmed: !draft.confirmed })}
          />
          <span>I looked twice: it reads that</span>
        </label>
      )}
      <label className="tick">
        <input
          type="checkbox"
          checked={draft.wantsPartsBack}
          onChange={() => change({ wantsPartsBack: !draft.wantsPartsBack })}
        />
        <span>The owner wants the old parts back</span>
      </label>
      <button type="submit" className="button main" disabled={busy}>
        Open its repair order
      </button>
    </form>
  );
}

interface PartProps {
  readonly draft: TakeInDraft;
  readonly wrong: (pointer: string) => string | undefined;
  readonly onChange: (part: Partial<TakeInDraft>) => void;
}

function Odometer({ draft, wrong, onChange }: PartProps) {
  return (
    <div className="odometer">
      <TextField
        label="Odometer"
        inputMode="numeric"
        autoComplete="off"
        fault={wrong('/odometer/reading')}
        value={draft.reading}
        onText={(reading) => onChange({ reading, confirmed: false })}
      />
      <Field label="in">
        {(attributes) => (
          <select
            {...attributes}
            value={draft.unit}
            onChange={(event) => onChange({ unit: event.target.value === 'mi' ? 'mi' : 'km' })}
          >
            <option value="km">km</option>
            <option value="mi">miles</option>
          </select>
        )}
      </Field>
    </div>
  );
}

/** On the phone it was only words: now it is one of the shop's, or a new one. */
function WhichVehicle({ one, draft, wrong, onChange }: PartProps & { readonly one: Reservation }) {
  const [text, setText] = useState('');
  const [picked, setPicked] = useState<string | null>(null);
  const found = useVehicles(text, picked === null);
  if (picked !== null)
    return (
      <div className="picked">
        <p>
          <b>{picked}</b>
        </p>
        <button
          type="button"
          className="plain"
          onClick={() => {
            setPicked(null);
            onChange({ vehicleId: null, customerId: one.customerId });
          }}
        >
          Another vehicle
        </button>
      </div>
    );
  return (
    <>
      <FoundList
        label={`Which is ${one.vehicleWords ?? 'the vehicle'}?`}
        hint="One that was here before: its plate, name or make"
        text={text}
        onText={setText}
        found={found}
        keyOf={({ id }) => id}
        show={(match) => (
          <>
            {wordsOf(match)} <span className="beside">{match.customer.displayName}</span>
          </>
        )}
        onPick={(match) => {
          setPicked(`${wordsOf(match)}, ${match.customer.displayName}`);
          onChange({ vehicleId: match.id, customerId: one.customerId });
        }}
        nothing="Not known here: write down what it is."
        autoFocus
      />
      <div className="new-vehicle">
        {(['make', 'model', 'plate'] as const).map((field) => (
          <TextField
            key={field}
            label={{ make: 'Or new here: make', model: 'Model', plate: 'Plate' }[field]}
            autoComplete="off"
            required={field !== 'plate'}
            fault={wrong(`/${field}`)}
            value={draft[field]}
            onText={(words) => onChange({ [field]: words })}
          />
        ))}
      </div>
    </>
  );
}
