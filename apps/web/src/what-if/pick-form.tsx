import { type SyntheticEvent, useState } from 'react';
import { SelectField } from '../ui/select-field.js';
import { TextField } from '../ui/text-field.js';
import { DAYS, KINDS, type Kind, type Picked, minuteOf, pickDay, pickThing, thingsOf } from './pick.js';
import type { Floor } from './read-floor.js';

interface PickProps {
  readonly floor: Floor;
  readonly hasAny: boolean;
  /** Beside the others, or to be done together with the last. */
  readonly onPick: (picked: Picked, together: boolean) => void;
}

/** One thing that would be different. */
export function PickForm({ floor, hasAny, onPick }: PickProps) {
  const [kind, setKind] = useState<Kind>('bay');
  const [thing, setThing] = useState('');
  const [day, setDay] = useState({ weekday: '6', from: '08:00', to: '13:00' });
  const things = thingsOf(kind, floor);
  const chosen = things.find(({ id }) => id === thing) ?? things[0];
  const runsForward = minuteOf(day.from) < minuteOf(day.to);
  const picked = (): Picked | null => {
    if (kind === 'day-open') return runsForward ? pickDay(day.weekday, day.from, day.to) : null;
    return chosen === undefined ? null : pickThing(kind, chosen);
  };
  const add = (together: boolean): void => {
    const one = picked();
    if (one) onPick(one, together);
  };
  const submit = (event: SyntheticEvent): void => {
    event.preventDefault();
    add(false);
  };
  return (
    <form className="pick" onSubmit={submit} noValidate>
      <SelectField label="What would be different" value={kind} options={KINDS} onPick={setKind} />
      {kind === 'day-open' ? (
        <div className="day-fields">
          <SelectField
            label="Day"
            value={day.weekday}
            options={DAYS}
            onPick={(weekday) => setDay({ ...day, weekday })}
          />
          <TextField label="From" type="time" value={day.from} onText={(from) => setDay({ ...day, from })} />
          <TextField
            label="To"
            type="time"
            value={day.to}
            fault={runsForward ? undefined : 'It must be later than the opening.'}
            onText={(to) => setDay({ ...day, to })}
          />
        </div>
      ) : things.length === 0 ? (
        <p className="empty">The shop has none of these.</p>
      ) : (
        <SelectField
          label="Which"
          value={chosen?.id ?? ''}
          options={things.map(({ id, name }) => [id, name] as const)}
          onPick={setThing}
        />
      )}
      <div className="acts">
        <button type="submit" className="button" disabled={picked() === null}>
          Compare this
        </button>
        {hasAny && (
          <button type="button" className="plain" disabled={picked() === null} onClick={() => add(true)}>
            Together with the last one
          </button>
        )}
      </div>
    </form>
  );
}
