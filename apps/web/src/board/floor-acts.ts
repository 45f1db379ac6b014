import type { Result } from '#libs/kernel';
import { call, ifMatch } from '../api/client.js';
import type { ApiFault } from '../api/fault.js';
import type { Assignment, Ticket } from '../api/types.js';
import type { Place } from './axis.js';
import { timesOf } from './move-assignment.js';

/** What can be done from the board, each one call. */
export type Done = Promise<Result<unknown, ApiFault>>;

export interface AssignmentWish extends Place {
  readonly technicianId: string;
}

const of = (ticket: Ticket): { id: string } => ({ id: ticket.workOrderId });

export const claim = (ticket: Ticket): Done =>
  call('post', '/api/v1/work-orders/{id}/claims', { path: of(ticket) });

export const releaseClaim = (ticket: Ticket, reason: string): Done =>
  call('delete', '/api/v1/work-orders/{id}/claims/current', {
    path: of(ticket),
    body: reason === '' ? {} : { reason },
  });

export const clockOn = (ticket: Ticket): Done =>
  call('post', '/api/v1/clock/on', { body: { workOrderId: ticket.workOrderId } });
export const clockOff = (): Done => call('post', '/api/v1/clock/off');
export const pause = (reason: string): Done => call('post', '/api/v1/clock/pause', { body: { reason } });
export const finish = (ticket: Ticket): Done =>
  call('post', '/api/v1/work-orders/{id}/finish', { path: of(ticket) });

export const assign = (ticket: Ticket, wish: AssignmentWish): Done =>
  call('post', '/api/v1/assignments', {
    body: { workOrderId: ticket.workOrderId, technicianId: wish.technicianId, ...timesOf(wish) },
  });

export const changeAssignment = (assignment: Assignment, wish: AssignmentWish): Done =>
  call('patch', '/api/v1/assignments/{id}', {
    path: { id: assignment.id },
    headers: ifMatch(assignment.version),
    body: { technicianId: wish.technicianId, ...timesOf(wish) },
  });

export const cancelAssignment = (assignment: Assignment): Done =>
  call('delete', '/api/v1/assignments/{id}', {
    path: { id: assignment.id },
    headers: ifMatch(assignment.version),
  });
