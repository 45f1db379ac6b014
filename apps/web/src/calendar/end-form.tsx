import { useState } from 'react';
import { instantOf } from '../board/instant-of.js';
import { clockTime, dayOf } from '../board/zone-time.js';
import { today } from '../estimate/today.js';
import { type Entry, change } from './acts.js';
import { DayAndTime, Either, FormSlip } from './form-slip.js';
import { spanOf, spanWords } from './span.js';
import { type FormProps, useForm } from './use-form.js';

interface EndProps extends FormProps {
  readonly entry: Entry;
  readonly zone: string;
}

/** Back earlier or later; of a bay or a tool perhaps nobody knows. */
export function EndForm(props: EndProps) {
  const { entry, zone, onClose } = props;
  const { to } = spanOf(entry.of);
  const [ends, setEnds] = useState<'known' | 'unknown'>(to === null ? 'unknown' : 'known');
  const [day, setDay] = useState(to === null ? today(zone) : dayOf(to, zone));
  const [time, setTime] = useState(to === null ? '17:00' : clockTime(to, zone));
  const endsAt = ends === 'unknown' ? null : new Date(instantOf(day, time, zone)).toISOString();
  const { wrong, ...form } = useForm(
    props,
    () => change(entry, { endsAt }),
    () => `${entry.name}: ${spanWords(spanOf({ ...entry.of, endsAt }), zone, today(zone))}.`,
  );
  return (
    <FormSlip title={`${entry.name}: back when?`} act="Change the end" {...form} onClose={onClose}>
      {entry.kind !== 'absence' && (
        <Either
          legend="Expected back"
          value={ends}
          options={[
            ['unknown', 'Nobody knows yet'],
            ['known', 'At a time'],
          ]}
          onPick={setEnds}
        />
      )}
      {ends === 'known' && (
        <DayAndTime
          label="Back on"
          day={day}
          time={time}
          fault={wrong('/endsAt')}
          onDay={setDay}
          onTime={setTime}
        />
      )}
    </FormSlip>
  );
}
