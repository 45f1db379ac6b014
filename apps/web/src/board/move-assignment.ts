import { call, ifMatch } from '../api/client.js';
import type { ApiFault } from '../api/fault.js';
import type { Assignment } from '../api/types.js';
import type { Result } from '#libs/kernel';
import type { Place } from './axis.js';

/** A place as the API takes it. */
export const timesOf = (place: Place): { bayId: string; startsAt: string; endsAt: string } => ({
  bayId: place.bayId,
  startsAt: new Date(place.startsAt).toISOString(),
  endsAt: new Date(place.endsAt).toISOString(),
});

/** Another bay or time, same technician; refused when somebody changed the assignment meanwhile. */
export const moveAssignment = (assignment: Assignment, place: Place): Promise<Result<unknown, ApiFault>> =>
  call('patch', '/api/v1/assignments/{id}', {
    path: { id: assignment.id },
    headers: ifMatch(assignment.version),
    body: timesOf(place),
  });
