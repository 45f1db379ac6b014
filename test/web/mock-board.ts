import type { Bay, Board, Technician } from '../../apps/web/src/api/types.js';
import { DAY, NOW, ZONE, accounts, at, id } from './mock-data.js';
import { demoTickets } from './mock-tickets.js';

const technicians: Technician[] = accounts
  .filter((one) => one.role === 'technician')
  .map((one, n) => ({
    id: one.id,
    displayName: one.displayName,
    skills: n % 2 === 0 ? ['brakes', 'engine'] : ['electrics'],
  }));

const bay = (n: number, name: string, more: Partial<Bay>): Bay => ({
  id: id(2, n),
  number: n,
  name,
  kind: 'lift',
  liftKind: 'two-post',
  capacityKg: 3500,
  outOfServiceReason: null,
  clockedOn: [],
  ...more,
});

/** A fresh board for each test. */
export function demoBoard(): Board {
  const on = (n: number, workOrder: number): Bay['clockedOn'][number] => ({
    technicianId: id(1, n),
    displayName: accounts.find((one) => one.id === id(1, n))?.displayName ?? '',
    workOrderId: id(3, workOrder),
  });
  return {
    day: DAY,
    timeZone: ZONE,
    now: NOW,
    dayStartsAt: at('07:30'),
    dayEndsAt: at('17:30'),
    lastEventId: '0',
    bays: [
      bay(1, 'Front left', { clockedOn: [on(11, 2481)] }),
      bay(2, 'Front right', { clockedOn: [on(12, 2476)] }),
      bay(3, 'Middle', { liftKind: 'scissor', capacityKg: 3000 }),
      bay(4, 'Long bay', { liftKind: 'four-post', capacityKg: 5000 }),
      bay(5, 'Alignment', { kind: 'alignment', liftKind: 'four-post', capacityKg: 4000 }),
      bay(6, 'Back yard', {
        kind: 'flat',
        liftKind: null,
        capacityKg: null,
        outOfServiceReason: 'Compressor room is being painted until Friday',
      }),
    ],
    technicians: structuredClone(technicians),
    tickets: demoTickets(),
    reserved: [],
    closures: [
      {
        ...{ closureId: id(9, 40), bayId: id(2, 5), startsAt: at('16:15'), endsAt: at('17:30') },
        words: 'Out of service: Turntables are calibrated',
      },
    ],
  };
}
