/**
 * Every problem that the server can answer with. The code is the last part of the problem's type and never changes its
 * meaning; DEVELOPERS.md lists the same codes and a test compares the two.
 */
export const PROBLEMS = {
  // the request itself
  'malformed-request': { status: 400, title: 'The request could not be read' },
  'not-signed-in': { status: 401, title: 'Sign in first' },
  'sign-in-failed': { status: 401, title: 'The sign-in did not succeed' },
  'session-ended': { status: 401, title: 'This session has ended' },
  'not-allowed': { status: 403, title: 'Your role may not do this' },
  'not-found': { status: 404, title: 'There is no such record' },
  'method-not-allowed': { status: 405, title: 'This address does not do that' },
  'request-in-progress': { status: 409, title: 'The same request is still running' },
  'stale-version': { status: 412, title: 'Somebody else changed this first' },
  'too-large': { status: 413, title: 'That is too large' },
  'unsupported-media-type': { status: 415, title: 'This kind of file is not accepted' },
  'request-invalid': { status: 422, title: 'Some fields are not right' },
  'idempotency-key-reused': { status: 422, title: 'This Idempotency-Key belongs to another request' },
  'version-needed': { status: 428, title: 'Say which version you are changing' },
  'too-many-requests': { status: 429, title: 'Too many requests' },
  'server-error': { status: 500, title: 'Something went wrong here' },
  'database-unavailable': { status: 503, title: 'The database does not answer just now' },

  // people
  'sign-in-locked': { status: 429, title: 'Too many wrong attempts' },
  'shop-needed': { status: 409, title: 'Say which shop' },
  'device-unknown': { status: 401, title: 'This tablet is not enrolled' },
  'email-taken': { status: 409, title: 'Somebody here has this e-mail address' },
  'last-administrator': { status: 409, title: 'The shop needs an administrator' },
  'staff-inactive': { status: 409, title: 'This person no longer works here' },

  // customers and vehicles
  'vin-not-valid': { status: 422, title: 'The VIN does not check out' },
  'vin-taken': { status: 409, title: 'Another vehicle has this VIN' },
  'odometer-went-back': { status: 422, title: 'The odometer reads less than before' },
  'vehicle-already-here': { status: 409, title: 'This vehicle has an open repair order' },

  // catalogue and floor
  'code-taken': { status: 409, title: 'This code is in use' },
  'name-taken': { status: 409, title: 'This name is in use' },
  'position-not-possible': { status: 422, title: 'This operation cannot be done at that position' },
  'step-hours-differ': { status: 422, title: 'One step has two different hours' },

  // repair orders
  'repair-order-closed': { status: 409, title: 'The vehicle has been picked up' },

  // inspection
  'inspection-completed': { status: 409, title: 'The inspection is completed' },
  'inspection-incomplete': { status: 409, title: 'Some checkpoints have not been looked at' },
  'observation-not-consistent': { status: 422, title: 'The observation contradicts itself' },
  'finding-in-use': { status: 409, title: 'A line answers this finding' },
  'photo-not-readable': { status: 422, title: 'The photo could not be read' },
  'photo-already-added': { status: 409, title: 'This photo is already there' },

  // estimate and decisions
  'revision-already-sent': { status: 409, title: 'A sent revision stays as it was' },
  'revision-empty': { status: 409, title: 'There is nothing to send' },
  'line-words-missing': { status: 409, title: 'A line does not say what the owner must read' },
  'revision-not-sent': { status: 409, title: 'This revision has not been sent' },
  'line-not-in-revision': { status: 422, title: 'This line is not part of the revision' },
  'lines-not-together': { status: 409, title: 'These lines cannot be approved like this' },
  'link-expired': { status: 410, title: 'This link has expired' },
  'link-revoked': { status: 410, title: 'This link was withdrawn' },
  'shown-has-changed': { status: 409, title: 'The figures have changed since they were shown' },
  'contingency-not-in-revision': { status: 422, title: 'That contingency is not part of the revision' },
  'contingency-without-line': { status: 409, title: 'A contingency is agreed to only with its line' },
  'contingency-not-agreed': { status: 409, title: 'The owner has not agreed to this contingency' },
  'contingency-triggered': { status: 409, title: 'This has happened and is charged already' },
  'work-not-begun': { status: 409, title: 'Work has not begun' },
  'work-already-begun': { status: 409, title: 'Work on this line has begun' },
  'line-already-decided': { status: 409, title: 'This line was decided meanwhile' },

  // the floor at work
  'work-order-claimed': { status: 409, title: 'Somebody holds this work order' },
  'work-order-not-held': { status: 409, title: 'You do not hold this work order' },
  'work-order-on-hold': { status: 409, title: 'This work order cannot start yet' },
  'work-order-state': { status: 409, title: 'The work order is not at that point' },
  'work-not-authorised': { status: 409, title: 'The owner has not agreed to this work' },
  'item-does-not-arrive': { status: 409, title: 'This is not an item that comes in' },
  'item-all-here': { status: 409, title: 'All of this item has come in' },
  'earlier-work-order-cycle': { status: 422, title: 'The work orders would wait for each other' },
  'bay-taken': { status: 409, title: 'The bay is taken at that time' },
  'technician-taken': { status: 409, title: 'The technician is taken at that time' },
  'tool-taken': { status: 409, title: 'The special tool is taken at that time' },
  'work-order-already-assigned': { status: 409, title: 'The work order has a place already' },
  'period-not-valid': { status: 422, title: 'The time range is not valid' },
  'lift-capacity-exceeded': { status: 409, title: 'The vehicle is heavier than the lift may carry' },
  'lift-inspection-overdue': { status: 409, title: 'The lift is overdue for its inspection' },
  'lift-needed': { status: 409, title: 'This work needs a lift' },
  'vehicle-weight-unknown': { status: 409, title: 'The weight of the vehicle is not known' },
  'vehicle-too-high': { status: 409, title: 'The vehicle is too high for this bay' },
  'bay-out-of-service': { status: 409, title: 'The bay is out of service' },
  'bay-kind-not-suitable': { status: 409, title: 'This bay does not suit the work' },
  'technician-not-qualified': { status: 409, title: 'The technician lacks a skill or certificate' },
  'day-closed-already': { status: 409, title: 'The shop is closed on that day already' },
  'away-already': { status: 409, title: 'The technician is away at that time already' },
  'out-of-service-already': { status: 409, title: 'This is out of service at that time already' },
  'closure-over': { status: 409, title: 'This is back in service' },

  // the plan
  'plan-outdated': { status: 409, title: 'The plan has gone on' },
  'plan-run-state': { status: 409, title: 'This run is not at that point' },

  // reservations
  'place-not-possible': { status: 409, title: 'That place is not possible' },
  'reservation-over': { status: 409, title: 'The reservation is over' },
  'reservation-state': { status: 409, title: 'The reservation is not at that point' },
  'reservation-for-another-vehicle': { status: 409, title: 'The reservation is for another vehicle' },

  // time
  'already-clocked-on': { status: 409, title: 'You are clocked on already' },
  'not-clocked-on': { status: 409, title: 'You are not clocked on' },
  'time-overlaps': { status: 409, title: 'The times overlap with another entry' },
  'clock-entry-open': { status: 409, title: 'The clock entry is still open' },
  'clock-entry-ended': { status: 409, title: 'The clock entry has ended already' },
  'already-in-attendance': { status: 409, title: 'You are in already' },
  'not-in-attendance': { status: 409, title: 'You are not in' },
  'clock-entry-corrected': { status: 409, title: 'This clock entry was corrected already' },
  'repair-order-not-ready': { status: 409, title: 'Not everything on this repair order is done' },
} as const;

export type ProblemCode = keyof typeof PROBLEMS;

export function isProblemCode(code: string): code is ProblemCode {
  return Object.hasOwn(PROBLEMS, code);
}
