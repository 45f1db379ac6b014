import type { Ticket } from '../api/types.js';
import { isDone, isMovable } from './look.js';
import { type Person, mayPlan } from './may-plan.js';

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
    if ((mine || !ticket.claim) && !running && ticket.holds.length === 0) acts.push('clock-on');
    if (mine && running) acts.push('pause', 'clock-off');
    // Of what runs the figure may still be the 0 of the moment at which it began.
    if (mine && (running || ticket.clockedSeconds > 0)) acts.push('finish');
  }
  if (ticket.claim && !running && (mine || mayManage(person))) acts.push('release');
  return acts;
}

function planningActs(ticket: Ticket, person: Person): Act[] {
  if (!mayPlan(person) || !isMovable(ticket)) return [];
  return ticket.assignment ? ['change-assignment', 'cancel-assignment'] : ['assign'];
}
