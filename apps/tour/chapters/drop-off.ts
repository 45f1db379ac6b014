import { CAR, CONCERN } from '../scenario.js';
import { expectThat, type Cast, type Tell } from '../story.js';

export interface Stay {
  readonly repairOrderId: string;
  readonly repairOrderNumber: number;
}

const ODOMETER_IN = { reading: 218_430, unit: 'km' } as const;

/** The front desk takes the car in. Plates are made up anew, so that the tour can run again on the same shop. */
export async function dropOff(cast: Cast, tell: Tell): Promise<Stay> {
  const { frontDesk } = cast;
  const mark = Date.now().toString(36).slice(-5).toUpperCase();
  const customer = await frontDesk.post<{ id: string; displayName: string }>('/customers', {
    displayName: `Ilse Marrow ${mark}`,
    phone: '+1 202-555-0177',
    email: `ilse.${mark.toLowerCase()}@example.com`,
  });
  const vehicle = await frontDesk.post<{ id: string }>('/vehicles', {
    customerId: customer.id,
    plate: `KLV ${mark}`,
    ...CAR,
  });
  const found = await frontDesk.get<{ vehicles: { id: string }[] }>(
    `/search?q=${encodeURIComponent(`klv${mark}`)}`,
  );
  expectThat(
    found.vehicles.some((v) => v.id === vehicle.id),
    'the new car is found by its plate as it is typed',
  );
  const order = await frontDesk.post<{ id: string; number: number; stage: string }>('/repair-orders', {
    vehicleId: vehicle.id,
    concern: CONCERN,
    odometer: ODOMETER_IN,
    wantsPartsBack: true,
  });
  const again = await frontDesk.refusal(
    frontDesk.post('/repair-orders', {
      vehicleId: vehicle.id,
      concern: 'again',
      odometer: ODOMETER_IN,
      wantsPartsBack: false,
    }),
  );
  expectThat(again.code === 'vehicle-already-here', 'a car that is here cannot be dropped off a second time');
  tell(
    frontDesk.who,
    `takes in a ${CAR.modelYear} ${CAR.make} ${CAR.model} as repair order ${order.number}. The owner says: “${CONCERN}”`,
  );
  return { repairOrderId: order.id, repairOrderNumber: order.number };
}
