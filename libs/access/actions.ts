import type { Role } from './roles.js';

const DESK: readonly Role[] = ['front-desk', 'manager', 'administrator'];
const FLOOR: readonly Role[] = ['technician', 'manager', 'administrator'];
const LEAD: readonly Role[] = ['manager', 'administrator'];
const ALL: readonly Role[] = ['front-desk', 'technician', 'manager', 'administrator'];

/**
 * Who may do what: the whole policy of a shop, as data. An action that is not listed is denied to everybody.
 *
 * The reasons behind the less obvious rows:
 * - nothing that changes money (estimates, decisions, catalogue, receipts) is a technician's, so that nobody prices
 *   the work that they are paid for;
 * - clock entries of other people are corrected by a manager only, so that the front desk cannot bend the hours that
 *   the review is made from;
 * - a technician may write a vehicle, because weight, VIN and odometer are read at the car;
 * - that a contingency has happened is told by whoever holds the work order, or for them by desk and manager; the owner
 *   has agreed to it and to its cap, so nobody prices anything by telling it;
 * - only an administrator changes the shop itself (rates, tax, time zone).
 */
export const ACTION_TABLE = {
  'session.own': ALL,
  'shop.read': ALL,
  'shop.configure': ['administrator'],
  'staff.manage': LEAD,
  'device.enrol': LEAD,
  'floor.configure': LEAD,
  'calendar.write': DESK,
  'catalogue.read': ALL,
  'catalogue.write': LEAD,
  'template.write': LEAD,

  'customer.read': ALL,
  'customer.write': DESK,
  'vehicle.write': ALL,

  'repair-order.open': DESK,
  'repair-order.read': ALL,
  'inspection.record': FLOOR,
  'finding.record': FLOOR,
  'photo.add': ALL,

  'estimate.write': DESK,
  'estimate.send': DESK,
  'decision.record-for-owner': DESK,
  'link.revoke': DESK,

  'work-order.claim': FLOOR,
  'work-order.finish': FLOOR,
  'work-order.check': FLOOR,
  'contingency.trigger': ALL,
  'assignment.write': DESK,
  'part.receive': DESK,
  'plan.decide': DESK,
  'plan.configure': LEAD,
  'reservation.read': DESK,
  'reservation.write': DESK,

  'clock.own': FLOOR,
  'clock.close-for-other': LEAD,
  'clock.correct': LEAD,
  'attendance.own': ALL,

  'board.read': ALL,
  'review.read': LEAD,
  'what-if.ask': LEAD,
} as const satisfies Readonly<Record<string, readonly Role[]>>;

export type Action = keyof typeof ACTION_TABLE;

export const ACTIONS = Object.keys(ACTION_TABLE) as readonly Action[];
