import type { Ticket } from '../api/types.js';
import { isDone, isMovable } from './look.js';

export interface Person {
  readonly id: string;
  readonly roles: readonly string[];
}
export type Act =
  | 'claim'
  | 'release'
  | 'clock-on'
  | 'pause'
  | 'clock-off'
  | 'finish'
  | 'assign'
  | 'change-assignment'
  | 'cancel-assignment';

/** Who plans the floor: by DESIGN the front desk and the manager; an administrator may do what a manager may. */
export const mayPlan = (person: Person): boolean =>
  person.roles.some((role) => role === 'front-desk' || role === 'manager' || role === 'administrator');
const mayManage = (person: Person): boolean =>
  person.roles.some((role) => role === 'manager' || role === 'administrator');

/** The acts to offer. The server decides; this only spares a person buttons that it would refuse. */
export function actsFor(ticket: Ticket, person: Person): Act[] {
  if (isDone(ticket)) return [];
  return [...technicianActs(ticket, person), ...planningActs(ticket, person)];
}

function technicianActs(ticket: Ticket, person: Person): Act[] {
  const mine = ticket.claim?.technicianId === person.id;
  const running = ticket.state === 'on-the-clock';
  const acts: Act[] = [];
  if (person.roles.includes('technician')) {
    if (!ticket.claim && ticket.canStart) acts.push('claim');
    if (mine && !running && ticket.holds.length === 0) acts.push('clock-on');
    if (mine && running) acts.push('pause', 'clock-off');
    if (mine && ticket.clockedSeconds > 0) acts.push('finish');
  }
  if (ticket.claim && !running && (mine || mayManage(person))) acts.push('release');
  return acts;
}

function planningActs(ticket: Ticket, person: Person): Act[] {
  if (!mayPlan(person) || !isMovable(ticket)) return [];
  return ticket.assignment ? ['change-assignment', 'cancel-assignment'] : ['assign'];
}
