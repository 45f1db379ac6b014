import { DateTime } from 'luxon';
import { fail, ok, type Fault, type Result } from '#libs/kernel';
import { fitAssignment, type AssignmentFaultCode, type AssignmentToFit } from '#libs/schedule';
import type { Tx } from '../../../platform/database/tx.js';
import type { ProblemCode } from '../../../platform/http/problem-codes.js';
import {
  bayClosuresDuring,
  toolClosuresDuring,
  type ClosureDuring,
  type ToolClosureDuring,
} from '../../floor/index.js';
import { needsOf, type WorkOrderInHand } from '../../work-orders/index.js';
import { freeReservedPlaces } from './free-reserved-places.js';
import type { AssignmentWarningResponse } from '../dto/assignment.response.js';
import { conflictsOf, toolUses, type Conflict, type Place } from '../queries/conflicts.query.js';
import { heldWords, holderFacts, type Holder } from '../queries/holder.js';
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
  await lockPlaces(tx, [{ ...place, toolIds: inHand.row.tools.map(({ id }) => id) }]);
  await freeReservedPlaces(tx, { repairOrderId: inHand.row.repairOrderId });
  const suits = await suitable(tx, inHand, place);
  if (!suits.ok) return suits;
  const [closed] = await bayClosuresDuring(tx, place.bayId, { from: place.startsAt, to: place.endsAt });
  if (closed)
    return fail('bay-out-of-service', `The bay is out of service at that time: ${closed.reason}.`, {
      facts: { closure: closureFacts(closed) },
    });
  const conflicts = await conflictsOf(tx, inHand.row.id, place, assignmentId);
  const taken = takenBy(conflicts, inHand.floor.timeZone);
  if (taken) return taken;
  const wanted = inHand.row.tools.map(({ id, name }) => ({
    ...{ id, name },
    units: inHand.floor.tools.find((tool) => tool.id === id)?.units ?? 0,
  }));
  const tools = await freeUnits(tx, wanted, place, assignmentId);
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
export async function lockPlaces(
  tx: Tx,
  places: readonly (Pick<Place, 'bayId' | 'technicianId'> & { readonly toolIds: readonly string[] })[],
): Promise<void> {
  const lock = (table: string, ids: readonly string[]): Promise<unknown[]> =>
    tx.rows(`select id from ${table} where shop_id = $1 and id = any ($2) order by id for no key update`, [
      tx.shopId,
      ids,
    ]);
  await lock(
    'bays',
    places.map(({ bayId }) => bayId),
  );
  await lock(
    'staff',
    places.map(({ technicianId }) => technicianId),
  );
  await lock(
    'special_tools',
    places.flatMap(({ toolIds }) => toolIds),
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

const closureFacts = ({ startsAt, endsAt, reason }: ClosureDuring) => ({
  startsAt: startsAt.toISOString(),
  endsAt: endsAt?.toISOString() ?? null,
  reason,
});

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

export function takenBy(conflicts: readonly Conflict[], zone: string) {
  const bay = conflicts.find(({ isSameBay }) => isSameBay);
  if (bay) return fail('bay-taken', `${bay.bayName} is ${heldWords(bay, zone)}`, { facts: holderFacts(bay) });
  const person = conflicts.find(({ isSameTechnician }) => isSameTechnician);
  return person
    ? fail('technician-taken', `The technician is ${heldWords(person, zone)}`, {
        facts: holderFacts(person),
      })
    : undefined;
}

/** A car is in one place at a time; but the plan may be half-way through being changed, so this is only said. */
function elsewhere(conflicts: readonly Conflict[]): AssignmentWarningResponse[] {
  return conflicts
    .filter(({ isSameVehicle }) => isSameVehicle)
    .map(({ workOrderNumber, bayName }) => ({
      code: 'vehicle-elsewhere',
      detail: `The same vehicle is planned in ${bayName} at that time (work order ${workOrderNumber ?? ''}).`,
    }));
}

/** A special tool, with how many the shop has. */
export interface WantedTool {
  readonly id: string;
  readonly name: string;
  readonly units: number;
}

/** The lowest unit of each tool that is free and in service for the whole time. */
export async function freeUnits(
  tx: Tx,
  tools: readonly WantedTool[],
  place: Place,
  assignmentId: string | null,
): Promise<Result<{ toolId: string; unit: number }[]>> {
  const ids = tools.map(({ id }) => id);
  if (ids.length === 0) return ok([]);
  const uses = await toolUses(tx, ids, place, assignmentId);
  const closures = await toolClosuresDuring(tx, ids, { from: place.startsAt, to: place.endsAt });
  const chosen: { toolId: string; unit: number }[] = [];
  for (const { id, name, units } of tools) {
    const of = ({ toolId }: { toolId: string }): boolean => toolId === id;
    const [taken, closed] = [uses.filter(of), closures.filter(of)];
    const free = Array.from({ length: units }, (_, at) => at + 1).find(
      (unit) => ![...taken, ...closed].some((one) => one.unit === unit),
    );
    if (free === undefined) return noUnit({ id, name, units }, taken, closed);
    chosen.push({ toolId: id, unit: free });
  }
  return ok(chosen);
}

function noUnit(
  tool: WantedTool,
  [taken]: readonly Holder[],
  [closed]: readonly ToolClosureDuring[],
): Result<never> {
  const facts = {
    tool,
    ...(taken ? holderFacts(taken) : {}),
    ...(closed ? { closure: closureFacts(closed) } : {}),
  };
  const said = closed ? `taken or out of service (${closed.reason})` : 'taken';
  return fail('tool-taken', `Every unit of "${tool.name}" is ${said} at that time.`, { facts });
}
