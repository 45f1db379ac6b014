import type { Ticket } from '../api/types.js';
import { type Place, placeOf } from './axis.js';

/** The first other ticket that a place would run into, in its bay or by its technician. A hint: the server decides. */
export function inTheWay(tickets: readonly Ticket[], moving: Ticket, place: Place): Ticket | undefined {
  const technicianId = moving.assignment?.technicianId;
  return tickets.find((other) => {
    if (other.workOrderId === moving.workOrderId || !other.assignment) return false;
    const there = placeOf(other.assignment);
    if (place.startsAt >= there.endsAt || there.startsAt >= place.endsAt) return false;
    return there.bayId === place.bayId || other.assignment.technicianId === technicianId;
  });
}
