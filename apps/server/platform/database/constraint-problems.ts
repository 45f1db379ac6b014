import { QueryFailedError } from 'typeorm';
import { problem, ProblemError } from '../http/problem-error.js';
import type { ProblemCode } from '../http/problem-codes.js';

/**
 * What a named constraint means to the person who ran into it. Use cases check first and say it better; these words
 * are for the race in which the check came too early. The text of a database error is never read.
 */
const MEANING: Readonly<Record<string, readonly [ProblemCode, string]>> = {
  shops_slug_taken: ['name-taken', 'A shop with this short name exists. Choose another one.'],
  labour_rates_one_default: [
    'stale-version',
    'Somebody just chose another default rate. Load the rates again.',
  ],
  staff_email_taken: ['email-taken', 'Somebody in this shop has this e-mail address. Give another one.'],
  vehicles_vin_taken: ['vin-taken', 'Another vehicle of this shop has this VIN. Open that vehicle instead.'],
  repair_orders_vehicle_is_here: [
    'vehicle-already-here',
    'This vehicle has a repair order that is not picked up. Go on with that one.',
  ],
  steps_code_taken: ['code-taken', 'A step with this code exists. Choose another code.'],
  packages_name_taken: ['name-taken', 'A package with this name exists. Choose another name.'],
  operations_code_taken: ['code-taken', 'An operation with this code exists. Choose another code.'],
  bays_number_taken: ['code-taken', 'A bay with this number exists. Choose another number.'],
  special_tools_name_taken: ['name-taken', 'A special tool with this name exists. Choose another name.'],
  labour_rates_name_taken: ['name-taken', 'A labour rate with this name exists. Choose another name.'],
  taxes_name_taken: ['name-taken', 'A tax with this name exists. Choose another name.'],
  inspection_templates_edition_taken: ['name-taken', 'Somebody saved this template first. Load it again.'],
  inspections_completed_stays: ['inspection-completed', 'The inspection is completed and stays as it was.'],
  observations_once_a_checkpoint: ['stale-version', 'This checkpoint was just recorded. Load it again.'],
  photos_once_an_observation: ['photo-already-added', 'This photo is already there.'],
  photos_once_a_finding: ['photo-already-added', 'This photo is already there.'],
  revisions_sent_stays: [
    'revision-already-sent',
    'The revision was sent. Put the change into a further revision.',
  ],
  revisions_one_draft: ['stale-version', 'Somebody just began a revision. Load the estimate again.'],
  decisions_one_at_a_time: ['line-already-decided', 'The line was decided at the same moment. Look again.'],
  contingency_decisions_one_at_a_time: [
    'line-already-decided',
    'The contingency was answered at the same moment. Look again.',
  ],
  contingency_decisions_before_trigger: [
    'contingency-triggered',
    'It has happened in the meantime and was done as agreed. Please call the shop.',
  ],
  contingency_triggers_once: ['contingency-triggered', 'Somebody told it first; it is charged once.'],
  contingency_triggers_on_latest_answer: [
    'contingency-not-agreed',
    'The owner changed their mind in the meantime. Put it into a further revision.',
  ],
  photos_once_a_contingency: ['photo-already-added', 'This photo is already there.'],
  work_orders_one_a_line: ['line-already-decided', 'The line was released at the same moment. Look again.'],
  claims_one_holder: ['work-order-claimed', 'Somebody was faster. Choose another work order.'],
  assignments_bay_no_overlap: ['bay-taken', 'The bay is taken at that time. Choose another time or bay.'],
  assignments_technician_no_overlap: [
    'technician-taken',
    'The technician is taken at that time. Choose another time or technician.',
  ],
  assignment_tools_no_overlap: ['tool-taken', 'Every unit of the special tool is taken at that time.'],
  assignments_one_a_work_order: [
    'work-order-already-assigned',
    'The work order has a place. Move it instead.',
  ],
  assignments_one_a_reserved_operation: [
    'reservation-state',
    'This work of the reservation has a place already. Load it again.',
  ],
  reservations_one_a_repair_order: [
    'reservation-state',
    'Another reservation was used for this repair order. Give one of them back.',
  ],
  plan_settings_pkey: ['stale-version', 'Somebody just changed the settings of the plan. Load them again.'],
  plan_runs_one_open_proposal: ['plan-outdated', 'Another proposal was just made. Load the plan again.'],
  plan_runs_decided_once: [
    'plan-run-state',
    'Somebody answered this proposal at the same moment. Look again.',
  ],
  plan_left_out_one_live: ['stale-version', 'Somebody just took it out of the plan. Load it again.'],
  closed_days_pkey: ['day-closed-already', 'The shop is closed on that day already.'],
  absences_no_overlap: ['away-already', 'They are away in that time already. Change that absence instead.'],
  bay_closures_no_overlap: [
    'out-of-service-already',
    'The bay is out of service in that time already. Change that entry instead.',
  ],
  tool_closures_no_overlap: [
    'out-of-service-already',
    'This tool is out of service in that time already. Change that entry instead.',
  ],
  clock_entries_no_overlap: ['time-overlaps', 'The times overlap with another entry of this technician.'],
  attendance_entries_no_overlap: [
    'time-overlaps',
    'The times overlap with another entry of this technician.',
  ],
};

interface DriverError {
  code?: unknown;
  constraint?: unknown;
}

/** The five characters of SQLSTATE, where the error came from the database. */
export function sqlState(error: unknown): string | undefined {
  if (!(error instanceof QueryFailedError)) return undefined;
  const code = (error.driverError as DriverError).code;
  return typeof code === 'string' ? code : undefined;
}

export function violatedConstraint(error: unknown): string | undefined {
  if (!(error instanceof QueryFailedError)) return undefined;
  const name = (error.driverError as DriverError).constraint;
  return typeof name === 'string' ? name : undefined;
}

export function problemOfDatabaseError(error: unknown): ProblemError | undefined {
  if (!(error instanceof QueryFailedError)) return undefined;
  const meaning = MEANING[violatedConstraint(error) ?? ''];
  if (meaning) return problem(meaning[0], meaning[1]);
  return isPassing(sqlState(error), error.driverError) ? databaseUnavailable(error) : undefined;
}

/**
 * Will be over by itself. Class 08: connection lost. 57P0x: the server is stopping or starting. 53300: no connection
 * left. 57014, 55P03, 25P03: longer than a statement, a lock or a pause may take. 40001, 40P01: still in the way of
 * another transaction after several attempts.
 */
const PASSING = /^(08...|57P..|53300|57014|55P03|25P03|40001|40P01)$/;

function isPassing(state: string | undefined, cause: unknown): boolean {
  return state !== undefined && STATE.test(state) ? PASSING.test(state) : !isOurMistake(cause);
}

/** SQLSTATE; no class begins with E, but EPIPE, which is the system's word for a lost connection, would look like one. */
const STATE = /^(?!E)[0-9A-Z]{5}$/;

/** Without a SQLSTATE an error is about the way to the database, but for a value that the driver could not send. */
function isOurMistake(error: unknown): boolean {
  return error instanceof TypeError || error instanceof RangeError || error instanceof SyntaxError;
}

/** What the asker may know; the cause is for the log. */
export function databaseUnavailable(cause: unknown): ProblemError {
  const told = problem(
    'database-unavailable',
    'The database does not answer just now. Try again, with the same Idempotency-Key: nothing is done twice.',
    { facts: { retryAfterSeconds: 2 } },
  );
  told.cause = cause;
  return told;
}
