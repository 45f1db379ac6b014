import { useState } from 'react';
import { call } from '../api/client.js';
import { TextField } from '../ui/text-field.js';
import type { TakeInProps } from './take-in.js';

/** The repair order that was opened for it already, by its number. */
export function UseForm({ one, onDone, onFault }: TakeInProps) {
  const [number, setNumber] = useState('');
  const [wrong, setWrong] = useState<string>();
  const use = async (): Promise<void> => {
    const orders = await call('get', '/api/v1/repair-orders', { query: { here: 'yes', limit: 200 } });
    if (!orders.ok) {
      onFault(orders.fault);
      return;
    }
    const order = orders.value.items.find((known) => String(known.number) === number.trim());
    setWrong(order ? undefined : 'No car in the shop has a repair order of this number. Open it first.');
    if (!order) return;
    const answer = await call('post', '/api/v1/reservations/{id}/use', {
      ...{ path: { id: one.id }, body: { repairOrderId: order.id } },
    });
    if (answer.ok) onDone(`Reservation ${one.number} belongs to repair order ${order.number} now.`);
    onFault(answer.ok ? null : answer.fault);
  };
  return (
    <form
      noValidate
      className="use"
      aria-label={`The repair order of reservation ${one.number}`}
      onSubmit={(event) => {
        event.preventDefault();
        void use();
      }}
    >
      <TextField
        label="Number of its repair order"
        inputMode="numeric"
        autoComplete="off"
        autoFocus
        fault={wrong}
        value={number}
        onText={setNumber}
      />
      <button type="submit" className="button main">
        It is this one
      </button>
    </form>
  );
}
