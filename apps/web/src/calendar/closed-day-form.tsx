import { useState } from 'react';
import { call } from '../api/client.js';
import { dayWords } from '../board/zone-time.js';
import { today } from '../estimate/today.js';
import { TextField } from '../ui/text-field.js';
import { FormSlip } from './form-slip.js';
import { type FormProps, useForm } from './use-form.js';

/** A holiday of the shop. */
export function ClosedDayForm(props: FormProps & { readonly zone: string }) {
  const now = today(props.zone);
  const [day, setDay] = useState(now);
  const [name, setName] = useState('');
  const { wrong, ...form } = useForm(
    props,
    () => call('post', '/api/v1/closed-days', { body: { day, name } }),
    () => `The shop is closed on ${dayWords(day, now)}.`,
  );
  return (
    <FormSlip title="Close a day" act="Close the shop on that day" {...form} onClose={props.onClose}>
      <div className="fields">
        <TextField label="Day" type="date" value={day} fault={wrong('/day')} onText={setDay} />
        <TextField
          label="Why"
          hint="The name of the holiday, or what is done instead"
          maxLength={80}
          value={name}
          fault={wrong('/name')}
          onText={setName}
        />
      </div>
    </FormSlip>
  );
}
