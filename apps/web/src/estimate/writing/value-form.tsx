import type { SubmitEvent } from 'react';
import { call, ifMatch } from '../../api/client.js';
import { fieldFault } from '../../ui/field.js';
import { TextField } from '../../ui/text-field.js';
import { useFirstField } from '../../ui/use-first-field.js';
import { moneyOf } from '../money.js';
import { FormActs } from './form-acts.js';
import { FormRefusal } from './form-refusal.js';
import { FigureReader, unreadable } from './read-figures.js';
import { useAct } from './use-act.js';
import { useKept } from './use-kept.js';
import type { WritingProps } from './writing-dialog.js';

/** What the shop thinks that the vehicle is worth. It stands beside the total and changes no computation. */
export function ValueForm({ order, estimate, read, say, onClose }: WritingProps) {
  const form = useFirstField();
  const before = estimate.vehicle.valueCents;
  const [text, setText, forget] = useKept(`value ${order.vehicle.id}`, () =>
    before === null ? '' : String(before / 100),
  );
  const act = useAct(read);

  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    const reader = new FigureReader();
    const valueCents = text.trim() === '' ? null : reader.hundredths('/valueCents', text, 'the value');
    if (reader.faults.length > 0) {
      act.refuse(unreadable(reader.faults));
      return;
    }
    const path = { id: order.vehicle.id };
    const saved = await act.run(async () => {
      // The estimate does not carry the vehicle's version, and nothing else of the vehicle is touched.
      const vehicle = await call('get', '/api/v1/vehicles/{id}', { path });
      if (!vehicle.ok) return vehicle;
      const headers = ifMatch(vehicle.value.version);
      return call('patch', '/api/v1/vehicles/{id}', { path, headers, body: { valueCents } });
    });
    if (!saved) return;
    forget();
    say(valueCents === null ? 'No value is entered any more.' : 'The value is entered.');
    onClose();
  };
  return (
    <form ref={form} className="write" onSubmit={(event) => void submit(event)}>
      <FormRefusal fault={act.fault} shown={(pointer) => pointer === '/valueCents'} />
      <TextField
        label={`Worth as it stands, ${moneyOf(estimate.currency).sign}`}
        hint="The owner sees the ratio beside the total, and no advice. Empty: none"
        inputMode="decimal"
        required={false}
        value={text}
        fault={fieldFault(act.fault?.fields, '/valueCents')}
        onText={setText}
      />
      <FormActs word="Enter the value" busy={act.busy} onCancel={onClose} />
    </form>
  );
}
