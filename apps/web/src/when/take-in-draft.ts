import { call } from '../api/client.js';
import type { ApiFault } from '../api/fault.js';
import type { Reservation } from './when-types.js';

/** What is said and read at the counter when a car comes on what was kept for it. */
export interface TakeInDraft {
  /** The shop's vehicle; null: it is new here, and the words below make its record. */
  readonly vehicleId: string | null;
  readonly customerId: string | null;
  readonly make: string;
  readonly model: string;
  readonly plate: string;
  readonly concern: string;
  readonly reading: string;
  readonly unit: 'km' | 'mi';
  /** The odometer was looked at twice although it reads less than before. */
  readonly confirmed: boolean;
  readonly wantsPartsBack: boolean;
}

export const draftOf = ({ vehicleId, customerId }: Reservation): TakeInDraft => ({
  ...{ vehicleId, customerId, make: '', model: '', plate: '' },
  ...{ concern: '', reading: '', unit: 'km', confirmed: false, wantsPartsBack: false },
});

type Told<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly fault: ApiFault };

const given = (words: string): string | null => (words.trim() === '' ? null : words.trim());

/**
 * Records that the car needs and the shop does not have yet, then its repair order.
 * @param known told of each record that was made, so that a second try after a refusal makes none twice.
 */
export async function takeIn(
  one: Reservation,
  draft: TakeInDraft,
  known: (made: Partial<TakeInDraft>) => void,
): Promise<Told<{ readonly number: number }>> {
  const vehicle = draft.vehicleId === null ? await newVehicle(one, draft, known) : null;
  if (vehicle !== null && !vehicle.ok) return vehicle;
  const reading = draft.reading.replace(/[^\d]/g, '');
  return call('post', '/api/v1/repair-orders', {
    body: {
      vehicleId: vehicle?.value ?? draft.vehicleId ?? '',
      ...(draft.customerId === null ? {} : { customerId: draft.customerId }),
      concern: draft.concern,
      odometer: {
        // What is not a number is sent as none, so that the server's words stand at the field.
        ...{ reading: reading === '' ? -1 : Number(reading), unit: draft.unit },
        ...(draft.confirmed ? { confirmed: true } : {}),
      },
      ...{ wantsPartsBack: draft.wantsPartsBack, reservationId: one.id },
    },
  });
}

async function newVehicle(
  one: Reservation,
  draft: TakeInDraft,
  known: (made: Partial<TakeInDraft>) => void,
): Promise<Told<string>> {
  let { customerId } = draft;
  if (customerId === null) {
    const customer = await call('post', '/api/v1/customers', {
      body: { displayName: one.customerName ?? '', phone: one.phone },
    });
    if (!customer.ok) return customer;
    customerId = customer.value.id;
    known({ customerId });
  }
  const { make, model, plate } = draft;
  const vehicle = await call('post', '/api/v1/vehicles', {
    body: { customerId, make, model, plate: given(plate), weightKg: one.weightKg, heightMm: one.heightMm },
  });
  if (!vehicle.ok) return vehicle;
  known({ customerId, vehicleId: vehicle.value.id });
  return { ok: true, value: vehicle.value.id };
}
