import { useState } from 'react';
import { instantOf } from '../board/instant-of.js';
import { dayWords, shiftDay } from '../board/zone-time.js';
import { today } from '../estimate/today.js';
import { SelectField } from '../ui/select-field.js';
import { TextField } from '../ui/text-field.js';
import { type AbsenceWish, plannedWords, recordAbsence } from './acts.js';
import { Either, FormSlip } from './form-slip.js';
import type { Floor } from './types.js';
import { type FormProps, useForm } from './use-form.js';

interface AbsenceProps extends FormProps {
  readonly floor: Floor;
  readonly zone: string;
}
interface Draft {
  readonly technicianId: string;
  readonly by: 'days' | 'hours';
  readonly first: string;
  readonly last: string;
  readonly from: string;
  readonly until: string;
  readonly reason: string;
}

function wishOf(draft: Draft, zone: string): AbsenceWish {
  const { technicianId, by, first, last, reason } = draft;
  const at = (day: string, time: string): string => new Date(instantOf(day, time, zone)).toISOString();
  const span =
    by === 'days'
      ? { startsAt: at(first, '00:00'), endsAt: at(shiftDay(last, 1), '00:00') }
      : { startsAt: at(first, draft.from), endsAt: at(first, draft.until) };
  return { technicianId, ...span, reason: reason.trim() === '' ? null : reason };
}

/** Somebody is away: for whole days, or for some hours of one. */
export function AbsenceForm(props: AbsenceProps) {
  const { floor, zone, onClose } = props;
  const now = today(zone);
  const people = floor.technicians.filter(({ isActive }) => isActive);
  const [draft, setDraft] = useState<Draft>({
    technicianId: '',
    by: 'days',
    first: now,
    last: now,
    from: '08:00',
    until: '12:00',
    reason: '',
  });
  const put = (change: Partial<Draft>): void => setDraft((before) => ({ ...before, ...change }));
  const { wrong, ...form } = useForm(
    props,
    () => recordAbsence(wishOf(draft, zone)),
    ({ value }) =>
      `${value.technicianName} is away, ${dayWords(draft.first, now)}. ${plannedWords(value.planned)}`,
  );
  return (
    <FormSlip title="Record an absence" act="Record" {...form} onClose={onClose}>
      <SelectField
        label="Who"
        value={draft.technicianId}
        options={[['', 'Choose'], ...people.map(({ id, displayName }) => [id, displayName] as const)]}
        required
        onPick={(technicianId) => put({ technicianId })}
      />
      <Either
        legend="How long"
        value={draft.by}
        options={[
          ['days', 'Whole days'],
          ['hours', 'Some hours of a day'],
        ]}
        onPick={(by) => put({ by })}
      />
      <AwayFields draft={draft} put={put} wrong={wrong} />
      <TextField
        label="Reason, if it may be known"
        hint="Everybody in the shop can read it."
        required={false}
        maxLength={200}
        value={draft.reason}
        fault={wrong('/reason')}
        onText={(reason) => put({ reason })}
      />
    </FormSlip>
  );
}

interface AwayFieldsProps {
  readonly draft: Draft;
  readonly put: (change: Partial<Draft>) => void;
  readonly wrong: (pointer: string) => string | undefined;
}

function AwayFields({ draft, put, wrong }: AwayFieldsProps) {
  const isDays = draft.by === 'days';
  return (
    <div className="fields">
      <TextField
        label={isDays ? 'First day away' : 'Day'}
        type="date"
        value={draft.first}
        fault={wrong('/startsAt')}
        onText={(first) => put({ first, ...(draft.last < first ? { last: first } : {}) })}
      />
      {isDays ? (
        <TextField
          label="Last day away"
          type="date"
          min={draft.first}
          value={draft.last}
          fault={wrong('/endsAt')}
          onText={(last) => put({ last })}
        />
      ) : (
        <>
          <TextField label="From" type="time" value={draft.from} onText={(from) => put({ from })} />
          <TextField
            label="Until"
            type="time"
            value={draft.until}
            fault={wrong('/endsAt')}
            onText={(until) => put({ until })}
          />
        </>
      )}
    </div>
  );
}
