import { DateTime } from 'luxon';
import { fail, ok, type Fault, type Result } from '#libs/kernel';
import { fitAssignment, type AssignmentFaultCode, type AssignmentToFit } from '#libs/schedule';
import type { Tx } from '../../../platform/database/tx.js';
import type { ProblemCode } from '../../../platform/http/problem-codes.js';
import { needsOf, type WorkOrderInHand } from '../../work-orders/index.js';
import type { AssignmentWarningResponse } from '../dto/assignment.response.js';
import { conflictsOf, toolUses, type Conflict, type Holder, type Place } from '../queries/conflicts.query.js';
import { shiftsAround } from '../queries/shifts.query.js';

/** A place that the work order may have, with the unit of each tool that goes with it. */
export interface FittingPlace {
  readonly tools: readonly { readonly toolId: string; readonly unit: number }[];
  readonly warnings: AssignmentWarningResponse[];
}

const LONGEST_DAYS = 31;

const PROBLEM_OF: Readonly<Record<AssignmentFaultCode, ProblemCode>> = {
  'bay-out-of-service': 'bay-out-of-service',
  'bay-without-lift': 'lift-needed',
  'bay-kind-not-suitable': 'bay-kind-not-suitable',
  'lift-kind-unsuitable': 'bay-kind-not-suitable',
  'lift-capacity-exceeded': 'lift-capacity-exceeded',
  'lift-inspection-overdue': 'lift-inspection-overdue',
  'vehicle-weight-unknown': 'vehicle-weight-unknown',
  'vehicle-too-high': 'vehicle-too-high',
  'technician-not-qualified': 'technician-not-qualified',
  'period-reversed': 'period-not-valid',
  'tool-missing': 'tool-taken',
  'tool-out-of-service': 'tool-taken',
};

/**
 * Whether the work order may have this place. The caller holds the work order; bay, technician and tools are locked
 * here, in this order everywhere, so that what is found free stays free until the end of the transaction. The
 * exclusion constraints stand behind it for whatever does not come this way.
 */
export async function fitPlace(
  tx: Tx,
  inHand: WorkOrderInHand,
  place: Place,
  assignmentId: string | null,
): Promise<Result<FittingPlace>> {
  const period = checkPeriod(place);
  if (!period.ok) return period;
  await lockFor(tx, inHand, place);
  const suits = await suitable(tx, inHand, place);
  if (!suits.ok) return suits;
  const conflicts = await conflictsOf(tx, inHand.row.id, place, assignmentId);
  const taken = takenBy(conflicts);
  if (taken) return taken;
  const tools = await freeUnits(tx, inHand, place, assignmentId);
  if (!tools.ok) return tools;
  return ok({ tools: tools.value, warnings: [...suits.value, ...elsewhere(conflicts)] });
}

function checkPeriod({ startsAt, endsAt }: Place): Result<void> {
  const days = (endsAt.getTime() - startsAt.getTime()) / 86_400_000;
  if (days > 0 && days <= LONGEST_DAYS) return ok(undefined);
  const detail =
    days > 0 ? `At most ${LONGEST_DAYS} days; plan the rest later.` : 'The end must be later than the start.';
  return fail('period-not-valid', detail, { fields: [{ pointer: '/endsAt', detail }] });
}

/** NO KEY UPDATE: others may go on naming these rows in what they write; only a second planner waits. */
async function lockFor(tx: Tx, { row }: WorkOrderInHand, place: Place): Promise<void> {
  const lock = (table: string, ids: readonly string[]): Promise<unknown[]> =>
    tx.rows(`select id from ${table} where shop_id = $1 and id = any ($2) order by id for no key update`, [
      tx.shopId,
      ids,
    ]);
  await lock('bays', [place.bayId]);
  await lock('staff', [place.technicianId]);
  await lock(
    'special_tools',
    row.tools.map(({ id }) => id),
  );
}

async function suitable(
  tx: Tx,
  { row, floor }: WorkOrderInHand,
  place: Place,
): Promise<Result<AssignmentWarningResponse[]>> {
  const bay = floor.bays.find(({ id }) => id === place.bayId);
  if (!bay) return unknown('/bayId', 'There is no such bay in this shop.');
  const technician = floor.people.find(({ id }) => id === place.technicianId);
  if (!technician?.isTechnician) return unknown('/technicianId', 'There is no such technician in this shop.');
  const lastDay = DateTime.fromMillis(place.endsAt.getTime() - 1, { zone: floor.timeZone }).toISODate() ?? '';
  const shifts = await shiftsAround(tx, technician.id, place, floor.timeZone);
  const wanted: AssignmentToFit = {
    needs: needsOf(row),
    vehicle: { weightKg: row.weightKg, heightMm: row.heightMm },
    bay,
    technician,
    tools: row.tools.map(({ name }) => ({ name, tool: name, inService: true })),
    period: { startsAt: place.startsAt, endsAt: place.endsAt, lastDay },
    ...(shifts ? { shifts } : {}),
  };
  const fit = fitAssignment(wanted);
  const [first] = fit.faults;
  if (first) return notFitting(first, fit.faults);
  return ok(fit.warnings.map(({ code, detail }) => ({ code, detail })));
}

const unknown = (pointer: string, detail: string) =>
  fail('not-found', detail, { fields: [{ pointer, detail }] });

function notFitting(
  first: Fault<AssignmentFaultCode>,
  all: readonly Fault<AssignmentFaultCode>[],
): Result<never> {
  return fail(PROBLEM_OF[first.code], all.map(({ detail }) => detail).join(' '), {
    facts: { ...first.facts, reasons: all.map(({ code, detail }) => ({ code: PROBLEM_OF[code], detail })) },
  });
}

const holder = ({ workOrderNumber, startsAt, endsAt }: Holder): { holder: Holder } => ({
  holder: { workOrderNumber, startsAt, endsAt },
});

function takenBy(conflicts: readonly Conflict[]) {
  const bay = conflicts.find(({ isSameBay }) => isSameBay);
  if (bay)
    return fail('bay-taken', `Work order ${bay.workOrderNumber} is in ${bay.bayName} at that time.`, {
      facts: holder(bay),
    });
  const person = conflicts.find(({ isSameTechnician }) => isSameTechnician);
  return person
    ? fail('technician-taken', `The technician is on work order ${person.workOrderNumber} at that time.`, {
        facts: holder(person),
      })
    : undefined;
}

/** A car is in one place at a time; but the plan may be half-way through being changed, so this is only said. */
function elsewhere(conflicts: readonly Conflict[]): AssignmentWarningResponse[] {
  return conflicts
    .filter(({ isSameVehicle }) => isSameVehicle)
    .map(({ workOrderNumber, bayName }) => ({
      code: 'vehicle-elsewhere',
      detail: `The same vehicle is planned in ${bayName} at that time (work order ${workOrderNumber}).`,
    }));
}

/** The lowest unit of each tool that is free for the whole time. */
async function freeUnits(
  tx: Tx,
  { row, floor }: WorkOrderInHand,
  place: Place,
  assignmentId: string | null,
): Promise<Result<{ toolId: string; unit: number }[]>> {
  const ids = row.tools.map(({ id }) => id);
  const uses = ids.length === 0 ? [] : await toolUses(tx, ids, place, assignmentId);
  const chosen: { toolId: string; unit: number }[] = [];
  for (const { id, name } of row.tools) {
    const units = floor.tools.find((tool) => tool.id === id)?.units ?? 0;
    const taken = uses.filter(({ toolId }) => toolId === id);
    const free = Array.from({ length: units }, (_, at) => at + 1).find(
      (unit) => !taken.some((use) => use.unit === unit),
    );
    if (free === undefined)
      return fail('tool-taken', `Every unit of "${name}" is taken at that time.`, {
        facts: { tool: { id, name, units }, ...(taken[0] ? holder(taken[0]) : {}) },
      });
    chosen.push({ toolId: id, unit: free });
  }
  return ok(chosen);
}
