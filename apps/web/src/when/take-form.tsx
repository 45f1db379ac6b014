import { type ReactNode, type SyntheticEvent, useState } from 'react';
import type { ApiFault } from '../api/fault.js';
import { fieldFault } from '../ui/field.js';
import { SelectField } from '../ui/select-field.js';
import { TextField } from '../ui/text-field.js';
import type { Reservation, TakeRequest } from './when-types.js';

/** Who comes and what was promised, as it was said. */
export type Told = TakeRequest;

interface TakeFormProps {
  readonly held: Reservation;
  /** An instant as it is said in the shop. */
  readonly said: (instant: string) => string;
  readonly vehicleWords: string;
  readonly fault: ApiFault | null;
  readonly onTake: (told: Told) => void;
  readonly children: ReactNode;
}

const FIELDS = ['customerName', 'phone', 'vehicleWords', 'promisedAt'] as const;

export const isToldBeside = ({ fields }: ApiFault): boolean =>
  FIELDS.some((field) => fieldFault(fields, `/${field}`) !== undefined);

/** Asks only for what the shop does not know of the one who calls. */
export function TakeForm({ held, said, vehicleWords, fault, onTake, children }: TakeFormProps) {
  const [form, setForm] = useState({ customerName: '', phone: '', vehicleWords });
  const [promise, setPromise] = useState<'p80' | 'likely'>('p80');
  const wrong = (field: (typeof FIELDS)[number]): string | undefined =>
    fieldFault(fault?.fields, `/${field}`);
  const isKnown = { customer: held.customerName !== null, vehicle: held.vehicleId !== null };
  const send = (event: SyntheticEvent): void => {
    event.preventDefault();
    const words = isKnown.vehicle ? { ...form, vehicleWords: '' } : form;
    const given = Object.entries(words).filter(([, text]) => text.trim() !== '');
    onTake({
      ...Object.fromEntries(given),
      promisedAt: promise === 'p80' ? held.readyP80At : held.readyAt,
    });
  };
  return (
    <form noValidate onSubmit={send}>
      {!isKnown.customer && (
        <>
          <TextField
            label="Who comes?"
            autoFocus
            autoComplete="off"
            fault={wrong('customerName')}
            value={form.customerName}
            onText={(customerName) => setForm({ ...form, customerName })}
          />
          <TextField
            label="Phone"
            type="tel"
            autoComplete="off"
            fault={wrong('phone')}
            value={form.phone}
            onText={(phone) => setForm({ ...form, phone })}
          />
        </>
      )}
      {!isKnown.vehicle && (
        <TextField
          label="The vehicle, in their words"
          autoComplete="off"
          fault={wrong('vehicleWords')}
          value={form.vehicleWords}
          onText={(text) => setForm({ ...form, vehicleWords: text })}
        />
      )}
      <SelectField
        label="Promised by"
        fault={wrong('promisedAt')}
        value={promise}
        options={[
          ['p80', `${said(held.readyP80At)}, kept in four of five cases`],
          ['likely', `${said(held.readyAt)}, as likely kept as not`],
        ]}
        onPick={setPromise}
      />
      {children}
    </form>
  );
}
